import type { FleetCosts } from '@/lib/contract/costs';
import type { PlanResult } from '@/lib/contract/plan';
import { formatMoney, formatNumber } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import { countOf } from '@/lib/report/format/words';
import { planScope, planZone } from '@/lib/report/plan/accepted-plans';
import type { AcceptedPlan } from '@/lib/report/plan/planning';
import { savesInWords } from '@/lib/report/plan/saves-words';
import type { FleetRecords } from '@/lib/report/records';
import { dayNumber } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';

/** One planned cleaning. */
type PlannedRow = {
  key: string;
  tag: string;
  site: string;
  when: string;
  outage: string;
  cost: string;
  /** Loss it avoids when the others stay: those of a unit together avoid more than the sum. */
  saves: string;
};

/** Open cleanings, those that save most first, and what the accepted plans save in all, against no cleaning and plain rules. */
export type PlannedView = { sentences: string[]; comparison: string[]; rows: PlannedRow[] };

export function plannedView(
  { planned }: Pick<FleetCosts, 'planned'>,
  { acceptedPlans, sites }: Pick<FleetRecords, 'acceptedPlans' | 'sites'>,
): PlannedView {
  return {
    sentences: planned.length === 0 ? [] : costsInWords(planned),
    comparison: acceptedPlans.flatMap((plan) => comparisonInWords(plan, sites)),
    rows: planned
      .toSorted((one, other) => (other.saves ?? -1) - (one.saves ?? -1))
      .map(({ tag, site, from, outage, currency, cost, saves }) => ({
        key: `${tag} ${from}`,
        tag,
        site,
        when: formatDay(from.slice(0, 10)),
        outage: outage ?? 'outside outages',
        cost: formatMoney(cost, currency),
        saves: savesInWords(saves, currency),
      })),
  };
}

function costsInWords(planned: FleetCosts['planned']): string[] {
  return [...new Set(planned.map(({ currency }) => currency))].map((currency) => {
    const own = planned.filter((each) => each.currency === currency);
    const cost = own.reduce((sum, each) => sum + each.cost, 0);
    const isOne = own.length === 1;
    return `${countOf(own.length, 'cleaning')} ${isOne ? 'is' : 'are'} planned, which ${isOne ? 'costs' : 'cost'} ${formatMoney(cost, currency)} with downtime.`;
  });
}

function comparisonInWords(plan: AcceptedPlan, sites: FleetRecords['sites']): string[] {
  const { acceptedAt, request, result } = plan;
  const { cost, compared, currency } = result;
  const site = sites.find(({ name }) => name === request.site) ?? sites[0];
  const money = (amount: number) => formatMoney(amount, currency ?? site?.currency ?? '');
  const accepted = formatDay(localDay(acceptedAt, planZone(plan, sites)));
  const span = `${formatDay(result.from)} to ${formatDay(dayNumber(result.to) - 1)}`;
  const without = compared.noCleaning.total;
  return [
    `The plan${planScope(plan)}, accepted on ${accepted}, is projected to cost ${money(cost.total)} in all, cleaning, downtime and loss together, ${span}: ${money(without - cost.total)} less than the loss of ${money(without)} expected without any cleaning.`,
    ...ruleInWords('Cleaning everything at the next outage', compared.allAtNextOutage, { cost, money }),
    ...ruleInWords(
      `Cleaning at a fixed interval${compared.fixedInterval.days === null ? '' : ` of ${formatNumber(compared.fixedInterval.days, 0)} days`}`,
      compared.fixedInterval,
      { cost, money },
    ),
  ];
}

type Rule = Pick<PlanResult['compared']['allAtNextOutage'], 'total' | 'broken'>;

function ruleInWords(
  rule: string,
  { total, broken }: Rule,
  { cost, money }: { cost: PlanResult['cost']; money: (amount: number) => string },
): string[] {
  if (total === null) return [`${rule} cannot be done${broken.length === 0 ? '' : `: ${broken[0]}`}.`];
  const difference = total - cost.total;
  const against =
    difference >= 0 ? `${money(difference)} more than the plan` : `${money(-difference)} less than the plan`;
  const breaks = broken.length === 0 ? '' : `, and would break ${countOf(broken.length, 'constraint')}`;
  return [`${rule} is projected to cost ${money(total)}: ${against}${breaks}.`];
}
