import { type LineFigures, levelAt } from './noisy-line';

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
 * What each side says by itself is joined by the one observation of both levels: as the noise of the first figure after the
 * place hangs on that of the last before it, it is y(after) − ρ·y(before), with a variance of 1 − ρ² that of the noise.
 *
 * @param figures figures of the cycle with their noise, whitened
 * @param place   index of the first figure after the place
 * @param bounds  figures to use: `from` included, `to` excluded
 * @returns levels, fall and its standard uncertainty [m²·K/W]; null with fewer than 5 figures on a side within 12 weeks
 * @range  0 < place < n
 * @source Draper & Smith, Applied Regression Analysis, 3rd ed. 1998, sect. 9.2 and 14.3 (generalised least squares, two lines)
 * @check  tests/core/cycles/level-change.test.ts
 */
export function levelChange(
  figures: LineFigures,
  place: number,
  bounds: { from: number; to: number },
): LevelChange | null {
  const { t, value, centre } = figures;
  const from = firstBeside(t, place, bounds.from);
  const to = endBeside(t, place, bounds.to);
  if (place - from < FEWEST_BESIDE || to - place < FEWEST_BESIDE) return null;
  const last = place - 1;
  const left = levelAt(figures, {
    from,
    to: place,
    at: last,
    isSloped: hasSlope(t, from, place),
    isCut: true,
  });
  const isSloped = hasSlope(t, place, to);
  const right = levelAt(figures, { from: place + 1, to, at: place, isSloped, isCut: false });
  const rho = figures.correlations[place]!;
  const own = 1 - rho * rho;
  const joint = own * left.weight * right.weight + left.weight + rho * rho * right.weight;
  const surprise = (value[place]! - right.value - rho * (value[last]! - left.value)) / joint;
  const before = centre + left.value - rho * right.weight * surprise;
  const after = centre + right.value + left.weight * surprise;
  const variance = (own * (left.weight + right.weight) + (1 - rho) ** 2) / joint;
  const uncertainty = figures.deviation * Math.sqrt(variance);
  return { place, from, to, before, after, fall: before - after, uncertainty };
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

function hasSlope(t: Float64Array, from: number, to: number): boolean {
  return to - from >= FEWEST_FOR_SLOPE && t[to - 1]! - t[from]! >= SHORTEST_FOR_SLOPE_DAYS;
}
