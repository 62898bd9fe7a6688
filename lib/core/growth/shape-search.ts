import { findRoot } from '../fit/brent';
import { findMinimum, type Minimum } from '../fit/minimise';

/** Places the final distribution over the shape is carried on. */
const FINAL_PLACES = 11;
/** Shapes whose criterion is worse than the best by more than this (three standard deviations) carry no weight. */
const REACH = 9;
/** Tolerances of the search as shares of the range. */
const SEARCH_TOLERANCE = 1e-4;
const EDGE_TOLERANCE = 1e-2;

/** Best place on the range of a shape and equally spaced places that cover what the figures leave open. */
export type ShapeSearch = { best: number; places: number[]; stretch: number };

/**
 * Where on its range a shape parameter fits best, and where else it may lie: the stretch around the best place on
 * which the criterion (−2·log-likelihood) stays within 9 of its least.
 *
 * @param criterion −2·log-likelihood over the place [-]
 * @param search lower and upper end of the place [-], and how many places are tried first
 * @returns best place and 11 equally spaced places (middles of equal parts of the stretch), length of the stretch
 * @range a criterion with one main minimum
 * @source Venzon & Moolgavkar, A method for computing profile-likelihood-based confidence intervals, Appl. Stat. 37 (1988) 87-94
 * @check tests/core/growth/shape-search.test.ts
 */
export function searchShape(
  criterion: (place: number) => number,
  { range, coarse: tried }: { range: readonly [number, number]; coarse: number },
): ShapeSearch {
  const [low, high] = range;
  const step = (high - low) / (tried - 1);
  const coarse = Array.from({ length: tried }, (_, i) => low + i * step);
  const values = coarse.map(criterion);
  const start = coarse[values.indexOf(Math.min(...values))]!;
  const near = [Math.max(low, start - step), Math.min(high, start + step)] as const;
  const found = leastNear(criterion, start, near);
  const least = Math.min(found.value, ...values);
  const best = found.value <= least ? found.x : start;
  const excess = (place: number) => criterion(place) - least - REACH;
  const tolerance = EDGE_TOLERANCE * (high - low);
  const edge = (end: number) => (excess(end) <= 0 ? end : findRoot(excess, best, end, { tolerance }));
  const from = edge(low);
  const to = edge(high);
  const width = (to - from) / FINAL_PLACES;
  const places = Array.from({ length: FINAL_PLACES }, (_, i) => from + (i + 0.5) * width);
  return { best, places, stretch: to - from };
}

/** Least value about the best of the places tried first: between its neighbours, or at an end of the range. */
function leastNear(
  criterion: (place: number) => number,
  start: number,
  near: readonly [number, number],
): Minimum {
  const [low, high] = near;
  if (low < start && start < high)
    return findMinimum(criterion, near, { tolerance: SEARCH_TOLERANCE, start });
  // Most records tell one end of the range: where it rises from there, that is the least.
  const inside = start + (start === low ? 1 : -1) * SEARCH_TOLERANCE * (high - low);
  if (criterion(inside) > criterion(start)) return { x: start, value: criterion(start) };
  return findMinimum(criterion, near, { tolerance: SEARCH_TOLERANCE });
}
