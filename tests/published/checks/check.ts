import type { SourceName } from './sources';
import type { Tolerance } from './tolerance';

/** How a figure of theirs was obtained, as the file it stands in states: see the README beside this folder. */
export type Origin = 'printed' | 'recalled' | 'computed';

/** One value of theirs beside ours; null or NaN where there is none, the state being impossible. */
export type Row = { at: string; theirs: number | null; ours: number | null };

/** One line of the page: a single value, or the values of one quantity over a table. */
export type Check = {
  id: string;
  quantity: string;
  unit: string;
  source: SourceName;
  origin: Origin;
  tolerance: Tolerance;
  rows: Row[];
  /** The last bits of an iteration or of an elimination: the page gives the difference as a power of ten above it. */
  isIterated?: true;
};

/** The checks of one subject: one section of the page. */
export type Subject = { title: string; checks: Check[] };

/** Differences below this are the last bits of the machine and are not told apart. */
export const NOISE = 1e-12;

function isNone(value: number | null): value is null {
  return value === null || Number.isNaN(value);
}

/** Difference of a row on the scale of its tolerance; infinite where only one of the two has a value. */
export function differenceOf({ theirs, ours }: Row, { scale }: Tolerance): number {
  if (isNone(theirs) || isNone(ours)) return isNone(theirs) && isNone(ours) ? 0 : Number.POSITIVE_INFINITY;
  const difference = Math.abs(ours - theirs);
  return scale === 'relative' && theirs !== 0 ? difference / Math.abs(theirs) : difference;
}

/** Whether ours is within the tolerance of theirs. */
export function isWithin(row: Row, { allowed }: Tolerance): boolean {
  if (isNone(row.theirs) || isNone(row.ours)) return isNone(row.theirs) && isNone(row.ours);
  return Math.abs(row.ours - row.theirs) <= allowed(row.theirs);
}

/** The row that differs most, the first of equals, so that the last bits do not choose it. */
export function worstRow(rows: Row[], tolerance: Tolerance): Row {
  const seen = rows.map((row) => {
    const difference = differenceOf(row, tolerance);
    return difference < NOISE ? 0 : Number(difference.toPrecision(2));
  });
  return rows[seen.indexOf(Math.max(...seen))]!;
}

/** A check of one value. */
export function single(
  check: Omit<Check, 'rows'> & { at?: string; theirs: number | null; ours: number | null },
): Check {
  const { at = '', theirs, ours, ...rest } = check;
  return { ...rest, rows: [{ at, theirs, ours }] };
}
