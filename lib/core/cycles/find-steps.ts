import { median } from '../stats/quantile';
import { isReached, type LeastFall } from './least-fall';
import { FEWEST_BESIDE, type LevelChange, levelChange } from './level-change';
import { type LineFigures, lineFigures, type NoisyFigures } from './noisy-line';

/** Least multiple of its own uncertainty at which the largest fall, or rise, of a stretch is a step [-]; from simulation. */
const LEAST_FALL = 5;
const LEAST_RISE = 4;
/** A rise counts, so as to explain a fall back, from this share of the least fall on [-] (own choice). */
const RISE_SHARE = 0.5;
/** Median of |z| of a standard normal: Φ⁻¹(3/4). */
const NORMAL_QUARTILE = 0.6745;
/** Fewest places away from a step whose changes of level tell how large they are without one [-]. */
const FEWEST_AWAY = 30;
/** Places nearer than this to a step feel it [days]. */
const FELT_DAYS = 28;

/**
 * Steps of the level, up and down, by binary segmentation: the largest change of level in a stretch, if it exceeds its
 * threshold, parts it in two, and so on. Then each step is looked for anew between its neighbours, and the least is left out
 * until all exceed their thresholds.
 *
 * @param figures   figures of a cycle with their noise
 * @param leastFall smallest fall worth finding [m²·K/W]
 * @returns steps in order of time
 * @range  any
 * @source Scott & Knott, A cluster analysis method for grouping means, Biometrics 30 (1974) 507-512 (binary segmentation);
 *   Bai, Estimating multiple breaks one at a time, Econometric Theory 13 (1997) 315-352 (looked for anew between neighbours)
 * @check  tests/properties/cycles.test.ts
 */
export function findSteps(figures: NoisyFigures, leastFall: LeastFall): LevelChange[] {
  const given = { figures: lineFigures(figures), leastFall };
  return settle(given, search(given, { from: 0, to: figures.t.length }));
}

type Given = { figures: LineFigures; leastFall: LeastFall };
type Stretch = { from: number; to: number };

/** Places of steps in a stretch, ascending. */
function search(given: Given, stretch: Stretch): number[] {
  const changes = changesIn(given.figures, stretch);
  const largest = largestOf(changes, given.leastFall);
  if (largest === null || strength(largest) < unrest(given.figures.t, changes, largest)) return [];
  const { place } = largest;
  const { from, to } = stretch;
  return [...search(given, { from, to: place }), place, ...search(given, { from: place, to })];
}

/** Change of level at every place of a stretch with enough figures on both sides. */
function changesIn(figures: LineFigures, stretch: Stretch): LevelChange[] {
  const changes: LevelChange[] = [];
  for (let place = stretch.from + FEWEST_BESIDE; place <= stretch.to - FEWEST_BESIDE; place++) {
    const change = levelChange(figures, place, stretch);
    if (change !== null) changes.push(change);
  }
  return changes;
}

function largestOf(changes: LevelChange[], leastFall: LeastFall): LevelChange | null {
  let largest: LevelChange | null = null;
  for (const change of changes) {
    if (!isReached(leastFall, Math.max(change.fall, -change.fall / RISE_SHARE))) continue;
    if (largest === null || strength(change) > strength(largest)) largest = change;
  }
  return largest;
}

/** Multiple of the threshold [-]. */
function strength(change: LevelChange): number {
  return multiple(change) / (change.fall > 0 ? LEAST_FALL : LEAST_RISE);
}

function multiple({ fall, uncertainty }: LevelChange): number {
  return Math.abs(fall) / uncertainty;
}

/** How much larger the changes of level away from a step are than the noise explains [-], ≥ 1: wander, weekly pattern, curvature. */
function unrest(t: Float64Array, changes: LevelChange[], step: LevelChange): number {
  const away = changes.filter(({ place }) => Math.abs(t[place]! - t[step.place]!) > FELT_DAYS);
  if (away.length < FEWEST_AWAY) return 1;
  return Math.max(1, median(away.map(multiple)) / NORMAL_QUARTILE);
}

/** Finds each step anew between its neighbours, and leaves out the weakest until all stand. */
function settle(given: Given, places: number[]): LevelChange[] {
  const steps: (LevelChange | null)[] = [];
  places.forEach((_, k) => {
    const stretch = { from: steps[k - 1]?.place ?? 0, to: places[k + 1] ?? given.figures.t.length };
    steps.push(largestOf(changesIn(given.figures, stretch), given.leastFall));
  });
  const strengths = steps.map((step) => (step === null ? 0 : strength(step)));
  const weakest = Math.min(...strengths);
  if (weakest >= 1) return steps.filter((step) => step !== null);
  return settle(
    given,
    places.filter((_, k) => k !== strengths.indexOf(weakest)),
  );
}
