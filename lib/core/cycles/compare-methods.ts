import { median, quantile } from '../stats/quantile';
import { type MedianInterval, medianInterval } from './median-interval';
import { type MethodDifference, methodDifferences } from './method-differences';
import { survivalMedian } from './survival-median';

/** One cleaning of the fleet with what it did; null: not known. */
export type CleaningRecord = {
  tag: string;
  method: string;
  /** Share of the fouling recovered [-]. */
  shareRecovered: number | null;
  /** Days until the fouling was back at its level before, null: not yet; and the days it was watched for. */
  daysUntilBack: number | null;
  cycleDaysAfter: number | null;
  /** What it cost and what it was worth so far, in one currency. */
  cost: number | null;
  worth: number | null;
  durationMs: number | null;
};

/** Middle of some values with their spread. */
export type Spread = {
  count: number;
  median: number;
  /** Tenth and ninetieth percentile; the full range of fewer than ten values. */
  low: number;
  high: number;
  isFullRange: boolean;
  /** Interval of the median of all such cleanings; null with fewer than six. */
  interval: MedianInterval | null;
};

/** What the cleanings of one method did. */
export type MethodSummary = {
  method: string;
  cleanings: number;
  units: number;
  shareRecovered: Spread | null;
  /** Median cost [currency] and duration [h]; null where none is known. */
  cost: number | null;
  hours: number | null;
  /** Median days until the fouling was back; `not-yet` where it is not for half of them, `unknown` without any. */
  back: { state: 'known' | 'not-yet' | 'unknown'; days: number | null; cleanings: number; cameBack: number };
  /** Worth so far of the cleanings of which cost and worth are known, per unit of their cost [-]. */
  worthPerCost: number | null;
};

/** From this many values on, percentiles say more than the full range [-] (own choice). */
const FEWEST_FOR_PERCENTILES = 10;
const MS_PER_HOUR = 3_600_000;

/**
 * Compares the cleaning methods of a fleet: per method what its cleanings recovered, cost, took and how long they lasted, and
 * which methods differ by more than chance.
 *
 * @param records cleanings of all units, any order
 * @returns methods, those of most cleanings first, and the differences in share recovered between each two
 * @range  any; nothing is made up where it is not known
 * @source quantiles: Hyndman & Fan, Am. Stat. 50 (1996) 361-365, definition 7; others as named where they are worked out
 * @check  tests/core/cycles/compare-methods.test.ts
 */
export function compareMethods(records: readonly CleaningRecord[]): {
  methods: MethodSummary[];
  differences: MethodDifference[];
} {
  const byMethod = new Map<string, CleaningRecord[]>();
  for (const record of records) byMethod.set(record.method, [...(byMethod.get(record.method) ?? []), record]);
  const groups = [...byMethod].sort(
    ([nameA, a], [nameB, b]) => b.length - a.length || (nameA < nameB ? -1 : 1),
  );
  return {
    methods: groups.map(([method, own]) => summarise(method, own)),
    differences: methodDifferences(
      groups.map(([method, own]) => ({ method, sharesByUnit: sharesByUnit(own) })),
    ),
  };
}

function summarise(method: string, own: CleaningRecord[]): MethodSummary {
  return {
    method,
    cleanings: own.length,
    units: new Set(own.map(({ tag }) => tag)).size,
    shareRecovered: spreadOf(known(own.map(({ shareRecovered }) => shareRecovered))),
    cost: medianOrNull(known(own.map(({ cost }) => cost))),
    hours: medianOrNull(known(own.map(({ durationMs }) => durationMs)).map((ms) => ms / MS_PER_HOUR)),
    back: backOf(own),
    worthPerCost: worthPerCost(own),
  };
}

function spreadOf(values: number[]): Spread | null {
  if (values.length === 0) return null;
  const isFullRange = values.length < FEWEST_FOR_PERCENTILES;
  return {
    count: values.length,
    median: median(values),
    low: quantile(values, isFullRange ? 0 : 0.1),
    high: quantile(values, isFullRange ? 1 : 0.9),
    isFullRange,
    interval: medianInterval(values),
  };
}

function backOf(own: CleaningRecord[]): MethodSummary['back'] {
  const lifetimes = own.flatMap(({ daysUntilBack, cycleDaysAfter }) => {
    if (daysUntilBack !== null) return [{ days: daysUntilBack, isOver: true }];
    return cycleDaysAfter === null ? [] : [{ days: cycleDaysAfter, isOver: false }];
  });
  const days = survivalMedian(lifetimes);
  const state = lifetimes.length === 0 ? 'unknown' : days === null ? 'not-yet' : 'known';
  return {
    state,
    days,
    cleanings: lifetimes.length,
    cameBack: lifetimes.filter(({ isOver }) => isOver).length,
  };
}

function worthPerCost(own: CleaningRecord[]): number | null {
  let worth = 0;
  let cost = 0;
  for (const record of own) {
    if (record.worth === null || record.cost === null) continue;
    worth += record.worth;
    cost += record.cost;
  }
  return cost > 0 ? worth / cost : null;
}

/** One value for each unit: cleanings of the same unit are alike, and would pass for more evidence than they are. */
function sharesByUnit(own: CleaningRecord[]): number[] {
  const tags = [...new Set(own.map(({ tag }) => tag))];
  const sharesOf = (tag: string) =>
    known(own.filter((record) => record.tag === tag).map(({ shareRecovered }) => shareRecovered));
  return tags.map((tag) => sharesOf(tag)).flatMap((shares) => (shares.length === 0 ? [] : [median(shares)]));
}

function known(values: (number | null)[]): number[] {
  return values.filter((value) => value !== null);
}

function medianOrNull(values: number[]): number | null {
  return values.length === 0 ? null : median(values);
}
