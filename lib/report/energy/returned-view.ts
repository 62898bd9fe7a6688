import type { FleetCosts, ReturnedCleaning } from '@/lib/contract/costs';
import { formatMoney, MISSING } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf } from '@/lib/report/format/words';
import { listInWords } from '@/lib/report/unit/growth-words';
import { energyText, moneyText } from './energy-format';
import { costHref } from './unit-rows';

/** One cleaning that counts. */
export type ReturnedRow = {
  key: string;
  tag: string;
  href: string;
  day: string;
  method: string;
  cost: string;
  energy: string;
  returned: string;
  net: string;
  paidBack: string;
};

/** Whether the cleanings of a period paid: in a sentence per currency, one by one, and those that cannot be counted. */
export type ReturnedView = { sentences: string[]; rows: ReturnedRow[]; uncounted: string[] };

const REASON_WORDS: Record<NonNullable<ReturnedCleaning['reason']>, string> = {
  'no-figures-between': 'no figures between two cleanings',
  'too-few-before': 'too few figures before it',
  'too-few-after': 'too few figures since',
  'outside-record': 'outside the record of readings',
  'outlet-held': 'its outlet is held, so that it won flow and not heat',
  'no-price': 'no price of energy',
  'no-cost': 'no cost written down',
};

export function returnedView(
  { cleanings }: Pick<FleetCosts, 'cleanings'>,
  { system, units }: { system: UnitSystem; units: string | null },
): ReturnedView {
  const counted = cleanings.filter(({ net }) => net !== null);
  return {
    sentences: cleanings.length === 0 ? ['No cleaning is recorded in this period.'] : sumsInWords(counted),
    rows: counted.map((cleaning) => returnedRow(cleaning, { system, units })),
    uncounted: uncountedInWords(cleanings),
  };
}

/** One sentence per currency: money of two is never added. Errors of two cleanings are taken as independent. */
function sumsInWords(counted: readonly ReturnedCleaning[]): string[] {
  return [...new Set(counted.map(({ currency }) => currency))].map((currency) => {
    const own = counted.filter((cleaning) => cleaning.currency === currency);
    const total = (of: (cleaning: ReturnedCleaning) => number | null) =>
      own.reduce((sum, cleaning) => sum + (of(cleaning) ?? 0), 0);
    const returned = total((cleaning) => cleaning.returned);
    const cost = total((cleaning) => cleaning.cost);
    const spread = Math.hypot(...own.map(({ returnedUncertainty }) => returnedUncertainty ?? 0));
    const paid = own.filter(({ paidBackOn }) => paidBackOn !== null).length;
    const verdict =
      returned >= cost
        ? `paid, with ${formatMoney(returned - cost, currency)} over`
        : `${formatMoney(cost - returned, currency)} still to come back`;
    return `${countOf(own.length, 'cleaning')} cost ${formatMoney(cost, currency)} and returned ${moneyText(
      returned,
      spread,
      currency,
    )} so far, at the least: ${verdict}. ${paid} of ${own.length} paid back on ${own.length === 1 ? 'its' : 'their'} own.`;
  });
}

function returnedRow(
  cleaning: ReturnedCleaning,
  { system, units }: { system: UnitSystem; units: string | null },
): ReturnedRow {
  const { tag, day, method, currency, cost, isUsualCost, energy, net } = cleaning;
  return {
    key: `${tag} ${day}`,
    tag,
    href: costHref(tag, units),
    day: formatDay(day),
    method: method ?? 'not stated',
    cost: `${formatMoney(cost, currency)}${isUsualCost ? ' (usual)' : ''}`,
    energy: energyText(energy, system),
    returned: moneyText(cleaning.returned, cleaning.returnedUncertainty, currency),
    net: net === null ? MISSING : `${net > 0 ? '+' : ''}${formatMoney(net, currency)}`,
    paidBack: cleaning.paidBackOn === null ? 'not yet' : formatDay(cleaning.paidBackOn),
  };
}

function uncountedInWords(cleanings: readonly ReturnedCleaning[]): string[] {
  const byReason = new Map<NonNullable<ReturnedCleaning['reason']>, string[]>();
  for (const { tag, day, reason } of cleanings)
    if (reason !== null)
      byReason.set(reason, [...(byReason.get(reason) ?? []), `${tag} (${formatDay(day)})`]);
  return [...byReason].map(
    ([reason, which]) =>
      `${countOf(which.length, 'cleaning')} not counted, ${REASON_WORDS[reason]}: ${listInWords(which)}.`,
  );
}
