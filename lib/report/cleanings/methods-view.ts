import { type CleaningRecord, compareMethods, type MethodSummary } from '@/lib/core/cycles/compare-methods';
import type { MethodDifference } from '@/lib/core/cycles/method-differences';
import { formatMoney, formatNumber, MISSING } from '@/lib/report/format/figure';
import { countOf } from '@/lib/report/format/words';
import type { DoneCleaning } from './done-cleaning';

/** What the cleanings of one method did, as cells. */
export type MethodRow = {
  method: string;
  cleanings: string;
  recovered: string;
  /** Median, spread and interval of the median, to be drawn [-]; null without a result. */
  bar: { middle: number; low: number; high: number; interval: { low: number; high: number } | null } | null;
  interval: string;
  back: string;
  hours: string;
  cost: string;
  worthPerCost: string;
};

/** Comparison of the cleaning methods of a fleet. */
export type MethodsView = {
  rows: MethodRow[];
  /** What can be said of the differences between them. */
  differences: string[];
  /** Cleanings of which nobody wrote down the method. */
  withoutMethod: number;
};

/** Compares methods over all cleanings; money by currency, for that of two is never added. */
export function methodsView(cleanings: readonly DoneCleaning[]): MethodsView {
  const names = namesOf(cleanings);
  const compared = cleanings.filter(({ method }) => method !== null);
  const currencies = [...new Set(compared.map(({ currency }) => currency))];
  const { methods, differences } = compareMethods(compared.map((cleaning) => recordOf(cleaning, names)));
  const byCurrency = currencies.map((currency) => ({
    currency,
    methods: compareMethods(
      compared.filter((own) => own.currency === currency).map((cleaning) => recordOf(cleaning, names)),
    ).methods,
  }));
  return {
    rows: methods.map((summary) => methodRow(summary, byCurrency)),
    differences: methods.length < 2 ? [] : differencesInWords(differences),
    withoutMethod: cleanings.length - compared.length,
  };
}

/** Methods are the same whatever the case of their letters; the first spelling met is shown. */
function namesOf(cleanings: readonly DoneCleaning[]): Map<string, string> {
  const names = new Map<string, string>();
  for (const { method } of cleanings)
    if (method !== null && !names.has(method.toLowerCase())) names.set(method.toLowerCase(), method);
  return names;
}

function recordOf(cleaning: DoneCleaning, names: Map<string, string>): CleaningRecord {
  const { tag, method, effect, cost, worth, durationMs, isUsualCost } = cleaning;
  return {
    tag,
    method: names.get((method ?? '').toLowerCase()) ?? '',
    shareRecovered: effect?.shareRecovered ?? null,
    daysUntilBack: effect?.daysUntilBack ?? null,
    cycleDaysAfter: effect?.daysElapsed ?? null,
    // What it usually costs says nothing of what a method cost.
    cost: isUsualCost ? null : cost,
    worth,
    durationMs,
  };
}

type ByCurrency = { currency: string; methods: MethodSummary[] }[];

function methodRow(summary: MethodSummary, byCurrency: ByCurrency): MethodRow {
  const { method, cleanings, units, shareRecovered, hours } = summary;
  const own = byCurrency.flatMap(({ currency, methods }) => {
    const found = methods.find((each) => each.method === method);
    return found === undefined ? [] : { currency, ...found };
  });
  const costs = own.flatMap(({ cost, currency }) => (cost === null ? [] : formatMoney(cost, currency)));
  const ratios = own.flatMap(({ worthPerCost, currency }) =>
    worthPerCost === null
      ? []
      : `${formatNumber(worthPerCost, 1)} ×${byCurrency.length > 1 ? ` (${currency})` : ''}`,
  );
  return {
    method,
    cleanings: `${cleanings} of ${countOf(units, 'unit')}`,
    recovered: shareRecovered === null ? MISSING : percent(shareRecovered.median),
    bar: shareRecovered === null ? null : barOf(shareRecovered),
    interval: intervalInWords(shareRecovered),
    back: backInWords(summary.back),
    hours: hours === null ? MISSING : formatNumber(hours, 0),
    cost: costs.length === 0 ? MISSING : costs.join(', '),
    worthPerCost: ratios.length === 0 ? MISSING : ratios.join(', '),
  };
}

function barOf({ median, low, high, interval }: NonNullable<MethodSummary['shareRecovered']>) {
  const within = (share: number) => Math.min(1, Math.max(0, share));
  return {
    middle: within(median),
    low: within(low),
    high: within(high),
    interval: interval === null ? null : { low: within(interval.low), high: within(interval.high) },
  };
}

function intervalInWords(spread: MethodSummary['shareRecovered']): string {
  if (spread === null) return 'no result yet';
  const { count, interval } = spread;
  if (interval === null) return `too few to tell (${count})`;
  return `${percent(interval.low)} to ${percent(interval.high)}`;
}

function backInWords({ state, days, cleanings, cameBack }: MethodSummary['back']): string {
  if (state === 'unknown') return MISSING;
  if (state === 'known' && days !== null)
    return `${formatNumber(days, 0)} days (${cameBack} of ${cleanings})`;
  return `not yet (${cameBack} of ${cleanings})`;
}

/** Differences that chance does not explain, one by one; all others in one sentence. */
function differencesInWords(differences: readonly MethodDifference[]): string[] {
  const supported = differences.filter(({ state }) => state === 'supported');
  const [tooFew, level] = ['too-few', 'not-supported'].map(
    (state) => differences.filter((difference) => difference.state === state).length,
  ) as [number, number];
  return [
    ...supported.map(differenceInWords),
    ...(level > 0 ? [levelInWords(level)] : []),
    ...(tooFew > 0 ? [tooFewInWords(tooFew)] : []),
  ];
}

function levelInWords(count: number): string {
  return count === 1
    ? 'Two methods differ by no more than chance explains.'
    : `${count} pairs of methods differ by no more than chance explains.`;
}

function tooFewInWords(count: number): string {
  const pairs = count === 1 ? 'One pair of methods has' : `${count} pairs of methods have`;
  return `${pairs} too few units to be told apart: five cleaned by each are needed.`;
}

function differenceInWords({ methods, difference, probability }: MethodDifference): string {
  const [first, second] = (difference ?? 0) >= 0 ? methods : [methods[1], methods[0]];
  const points = formatNumber(100 * Math.abs(difference ?? 0), 0);
  const chance = (probability ?? 1) < 0.001 ? 'less than 0.1 %' : percent(probability ?? 1, 1);
  return `${first} recovers ${points} percentage points more than ${second} (by chance: ${chance}).`;
}

function percent(share: number, decimals = 0): string {
  return `${formatNumber(100 * share, decimals)} %`;
}
