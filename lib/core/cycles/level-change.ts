import { whiten } from '../fit/autoregressive';
import { solveTriangular, triangularise } from '../fit/householder';

/** Figures of one cycle: days and values, ascending, equal lengths, and the noise about their smooth course. */
export type NoisyFigures = {
  /** [days] */
  t: Float64Array;
  /** [m²·K/W] */
  y: Float64Array;
  /** Correlation of each figure's noise with that of the one before it [-]; the first is not used. */
  correlations: Float64Array;
  /** Standard deviation of the noise [m²·K/W]. */
  deviation: number;
};

/** Levels on both sides of a place between two figures. */
export type LevelChange = {
  /** Index of the first figure after the place; figures used: `from` included, `to` excluded. */
  place: number;
  from: number;
  to: number;
  /** Smooth levels at the last figure before and the first after [m²·K/W]. */
  before: number;
  after: number;
  /** before − after [m²·K/W]: above 0 where it falls; with its standard uncertainty under the noise. */
  fall: number;
  uncertainty: number;
};

/** Figures so near on either side tell the level [days]: four whole weeks, so that a weekly pattern evens out. */
const WINDOW_DAYS = 28;
/** Fewest figures on either side; found further away if need be, but not beyond LONGEST_WINDOW_DAYS (own choice). */
export const FEWEST_BESIDE = 5;
const LONGEST_WINDOW_DAYS = 84;
/** A side has a slope of its own from this many figures over this many days on; else it is taken as level. */
const FEWEST_FOR_SLOPE = 10;
const SHORTEST_FOR_SLOPE_DAYS = 13;

/**
 * How far the level falls between two neighbouring figures: the ends of two straight lines, one through the figures of the
 * four weeks before and one through those of the four weeks after, by generalised least squares under AR(1) noise. Each side
 * has its own slope, so that growth is no fall and a delayed or fast beginning no rise; a side of few figures is taken as
 * level, which with growth makes a fall look smaller.
 *
 * @param figures figures of the cycle with their noise
 * @param place   index of the first figure after the place
 * @param bounds  figures to use: `from` included, `to` excluded
 * @returns levels, fall and its standard uncertainty [m²·K/W]; null with fewer than 5 figures on a side within 12 weeks
 * @range  0 < place < n
 * @source Draper & Smith, Applied Regression Analysis, 3rd ed. 1998, sect. 9.2 and 14.3 (generalised least squares, two lines)
 * @check  tests/core/cycles/level-change.test.ts
 */
export function levelChange(
  figures: NoisyFigures,
  place: number,
  bounds: { from: number; to: number },
): LevelChange | null {
  const { t, y, deviation } = figures;
  const from = firstBeside(t, place, bounds.from);
  const to = endBeside(t, place, bounds.to);
  if (place - from < FEWEST_BESIDE || to - place < FEWEST_BESIDE) return null;
  const correlations = figures.correlations.subarray(from, to);
  // The fall comes last: then its estimate and its variance are those of the last row of the triangle.
  const columns = columnsOf(t.subarray(from, to), place - from);
  for (const column of columns) whiten(correlations, column);
  const triangular = triangularise(columns, whiten(correlations, y.slice(from, to)));
  const parameters = solveTriangular(triangular);
  const fall = parameters.at(-1)!;
  const after = parameters[0]!;
  return {
    place,
    from,
    to,
    before: after + fall,
    after,
    fall,
    uncertainty: deviation / Math.abs(triangular.r.at(-1)!),
  };
}

function firstBeside(t: Float64Array, place: number, from: number): number {
  const last = t[place - 1]!;
  let first = place - 1;
  while (first > from && isBeside(last - t[first - 1]!, place - first)) first--;
  return first;
}

function endBeside(t: Float64Array, place: number, to: number): number {
  let end = place + 1;
  while (end < to && isBeside(t[end]! - t[place]!, end - place)) end++;
  return end;
}

function isBeside(days: number, count: number): boolean {
  return days < WINDOW_DAYS || (count < FEWEST_BESIDE && days < LONGEST_WINDOW_DAYS);
}

/** Level after, slope before, slope after (each where the side tells one), and 1 for every figure before the fall. */
function columnsOf(t: Float64Array, place: number): Float64Array[] {
  const columns: Float64Array[] = [new Float64Array(t.length).fill(1)];
  if (hasSlope(t, 0, place)) columns.push(slopeOf(t, { from: 0, to: place, at: place - 1 }));
  if (hasSlope(t, place, t.length)) columns.push(slopeOf(t, { from: place, to: t.length, at: place }));
  columns.push(new Float64Array(t.length).fill(1, 0, place));
  return columns;
}

/** Distance in time of one side's figures from its last or first one, in windows [-]; 0 on the other side. */
function slopeOf(t: Float64Array, { from, to, at }: { from: number; to: number; at: number }): Float64Array {
  const column = new Float64Array(t.length);
  for (let i = from; i < to; i++) column[i] = (t[i]! - t[at]!) / WINDOW_DAYS;
  return column;
}

function hasSlope(t: Float64Array, from: number, to: number): boolean {
  return to - from >= FEWEST_FOR_SLOPE && t[to - 1]! - t[from]! >= SHORTEST_FOR_SLOPE_DAYS;
}
