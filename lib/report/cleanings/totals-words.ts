import { formatFigureText, formatMoney } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf } from '@/lib/report/format/words';
import { listInWords } from '@/lib/report/unit/growth-words';
import type { CleaningTotals, CurrencyTotal } from './cleaning-totals';
import { type CleaningsPeriod, periodInWords } from './cleanings-period';
import type { DoneCleaning } from './done-cleaning';

/** Units named one by one; more are counted. */
const MOST_NAMED = 6;

/** Whether the cleanings of a period paid: the answer first, then what it does not count. */
export type TotalsWords = { main: string; money: string[]; leftOut: string[] };

export function totalsInWords(
  totals: CleaningTotals,
  { period, system }: { period: CleaningsPeriod; system: UnitSystem },
): TotalsWords {
  const { cleanings, units, energy } = totals;
  if (cleanings === 0)
    return { main: `No cleaning is recorded ${periodInWords(period)}.`, money: [], leftOut: [] };
  const energyText =
    energy === null ? '' : `, and ${formatFigureText(energy, 'energy', system)} not lost since`;
  return {
    main: `${countOf(cleanings, 'cleaning')} of ${countOf(units, 'unit')} ${periodInWords(period)}${energyText}.`,
    money: totals.money.map(moneyInWords),
    leftOut: [
      ...leftOut(totals.withoutResult, 'no result to count'),
      ...leftOut(totals.withoutPrice, 'no price of energy in the datasheet'),
      ...leftOut(totals.withoutCost, 'no cost written down'),
    ],
  };
}

function moneyInWords({ currency, cleanings, paid, worth, cost, net }: CurrencyTotal): string {
  const money = (amount: number) => formatMoney(amount, currency);
  const brought = `Worth at least ${money(worth)} so far, against ${money(cost)} that ${cleanings === 1 ? 'it' : 'they'} cost`;
  const counted = cleanings === 1 ? '' : ` ${paid} of ${cleanings} have paid on their own.`;
  if (Math.round(net) === 0) return `${brought}: just paid.${counted}`;
  return net > 0
    ? `${brought}: paid, with ${money(net)} over.${counted}`
    : `${brought}: at most ${money(-net)} still to come back.${counted}`;
}

function leftOut(cleanings: readonly DoneCleaning[], why: string): string[] {
  if (cleanings.length === 0) return [];
  const tags = [...new Set(cleanings.map(({ tag }) => tag))];
  const named =
    tags.length <= MOST_NAMED
      ? listInWords(tags)
      : `${tags.slice(0, MOST_NAMED).join(', ')} and ${countOf(tags.length - MOST_NAMED, 'other unit')}`;
  return [`${countOf(cleanings.length, 'cleaning')} not counted, ${why}: ${named}.`];
}
