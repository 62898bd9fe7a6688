import type { FleetCosts } from '@/lib/contract/costs';
import type { PlanResult } from '@/lib/contract/plan';
import { formatMoney, formatNumber } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import { countOf } from '@/lib/report/format/words';
import type { FleetRecords } from '@/lib/report/records';
import { localDay } from '@/lib/time/local-clock';

/** One planned cleaning. */
type PlannedRow = {
  key: string;
  tag: string;
  site: string;
  when: string;
  outage: string;
  cost: string;
  saves: string;
  net: string;
};

/** What the cleanings of the accepted plan are projected to save, and the plan against plain rules. */
export type PlannedView = { sentences: string[]; comparison: string[]; rows: PlannedRow[] };

export function plannedView(
  { planned }: Pick<FleetCosts, 'planned'>,
  { acceptedPlan, sites }: Pick<FleetRecords, 'acceptedPlan' | 'sites'>,
): PlannedView {
  return {
    sentences: planned.length === 0 ? [] : savingsInWords(planned),
    comparison: acceptedPlan === null ? [] : comparisonInWords(acceptedPlan, sites),
    rows: planned.map(({ tag, site, from, outage, currency, cost, saves }) => ({
      key: `${tag} ${from}`,
      tag,
      site,
      when: formatDay(from.slice(0, 10)),
      outage: outage ?? 'on line',
      cost: formatMoney(cost, currency),
      saves: formatMoney(saves, currency),
      net: `${saves > cost ? '+' : ''}${formatMoney(saves - cost, currency)}`,
    })),
  };
}

function savingsInWords(planned: FleetCosts['planned']): string[] {
  return [...new Set(planned.map(({ currency }) => currency))].map((currency) => {
    const own = planned.filter((each) => each.currency === currency);
    const cost = own.reduce((sum, each) => sum + each.cost, 0);
    const saves = own.reduce((sum, each) => sum + each.saves, 0);
    const verb = own.length === 1 ? 'is' : 'are';
    return `${countOf(own.length, 'cleaning')} ${verb} planned, projected to save ${formatMoney(
      saves,
      currency,
    )} for the ${formatMoney(cost, currency)} that ${own.length === 1 ? 'it costs' : 'they cost'}.`;
  });
}

function comparisonInWords(
  { acceptedAt, result }: NonNullable<FleetRecords['acceptedPlan']>,
  sites: FleetRecords['sites'],
): string[] {
  const { cost, compared, currency } = result;
  const money = (amount: number) => formatMoney(amount, currency ?? sites[0]?.currency ?? '');
  const accepted = formatDay(localDay(acceptedAt, sites[0]?.timeZone ?? 'UTC'));
  const span = `${formatDay(result.from.slice(0, 10))} to ${formatDay(result.to.slice(0, 10))}`;
  return [
    `The plan accepted on ${accepted} is projected to cost ${money(cost.total)} in all, cleaning, downtime and loss together, ${span}.`,
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
