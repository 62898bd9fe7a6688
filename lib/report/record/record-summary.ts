import { binomialInterval } from '@/lib/core/stats/binomial-interval';
import { middleError } from './middle-error';
import type { PastProjection } from './past-projections';

/** P10 to P90 are to hold four days in five [-]. */
export const AIM = 0.8;

/** How a set of past projections did. */
export type RecordSummary = {
  count: number;
  /** How often P10 to P90 held the day, and its share with a 95 % interval [-]; null without any. */
  held: number;
  heldShare: number | null;
  interval: { low: number; high: number } | null;
  /** Half of them were no further from the day than this; null without any, and where half gave no day. */
  medianErrorDays: number | null;
  /** The same as a share of the days that were left [-]. */
  medianErrorShare: number | null;
  /** Those that promised less time than there was, or more, and those that gave no day. */
  tooEarly: number;
  tooLate: number;
  noDay: number;
};

/** One projection for each cycle, so that they may count as independent: pass those of one share of life. */
export function recordSummary(projections: readonly PastProjection[]): RecordSummary {
  const count = projections.length;
  const held = projections.filter((projection) => projection.held).length;
  return {
    count,
    held,
    heldShare: count === 0 ? null : held / count,
    interval: count === 0 ? null : binomialInterval(held, count),
    medianErrorDays: middleError(projections.map(({ errorDays }) => sizeOf(errorDays))),
    medianErrorShare: middleError(projections.map(({ errorShare }) => sizeOf(errorShare))),
    tooEarly: projections.filter(({ errorDays }) => errorDays !== null && errorDays < 0).length,
    tooLate: projections.filter(({ errorDays }) => errorDays !== null && errorDays > 0).length,
    noDay: projections.filter(({ errorDays }) => errorDays === null).length,
  };
}

function sizeOf(error: number | null): number | null {
  return error === null ? null : Math.abs(error);
}

/** Whether the aim is within what chance allows; null without any projection. */
export type Verdict = 'as-aimed' | 'too-sure' | 'too-wide';

export function verdictOf({ interval }: RecordSummary): Verdict | null {
  if (interval === null) return null;
  if (interval.high < AIM) return 'too-sure';
  return interval.low > AIM ? 'too-wide' : 'as-aimed';
}

/** Summaries of groups, in the order of their names; a group without a name stands last. */
export function summariesBy(
  projections: readonly PastProjection[],
  nameOf: (projection: PastProjection) => string,
): { name: string; summary: RecordSummary }[] {
  const groups = new Map<string, PastProjection[]>();
  for (const projection of projections) {
    const name = nameOf(projection);
    groups.set(name, [...(groups.get(name) ?? []), projection]);
  }
  return [...groups]
    .sort(([a], [b]) => Number(a === '') - Number(b === '') || a.localeCompare(b, 'en', { numeric: true }))
    .map(([name, members]) => ({ name, summary: recordSummary(members) }));
}
