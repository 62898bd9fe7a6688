import type { LevelChange } from './level-change';

/** A rise and a fall back, or a fall and a rise back, within this many days are temporary: a fault that healed (own choice). */
const TEMPORARY_DAYS = 30;
/** The second undoes the first where the level ends no lower than by this share of the smaller one [-] (own choice). */
const LEFT_SHARE = 0.4;
/** Or where what is left lies within so many of its standard uncertainties [-]. */
const COVERAGE = 2;

/**
 * Steps that last: leaves out pairs of neighbouring opposite steps of which the second undoes the first, the shortest-lived
 * first. What comes back by itself within weeks was no cleaning but a sensor, a valve or a load.
 *
 * @param t     days of the figures, ascending [days]
 * @param steps steps in order of time, their places indices into `t`
 * @returns those that are left, in order
 * @range  any
 * @source none: own rule
 * @check  tests/core/cycles/lasting-steps.test.ts
 */
export function lastingSteps(t: ArrayLike<number>, steps: readonly LevelChange[]): LevelChange[] {
  let first = -1;
  let shortest = TEMPORARY_DAYS;
  for (let k = 0; k + 1 < steps.length; k++) {
    const days = t[steps[k + 1]!.place]! - t[steps[k]!.place - 1]!;
    if (days > shortest || !undoes(steps[k]!, steps[k + 1]!)) continue;
    first = k;
    shortest = days;
  }
  if (first < 0) return [...steps];
  return lastingSteps(
    t,
    steps.filter((_, k) => k !== first && k !== first + 1),
  );
}

function undoes(first: LevelChange, second: LevelChange): boolean {
  if (first.fall * second.fall > 0) return false;
  // Not its magnitude: what grew meanwhile leaves the level higher.
  const left = first.before - second.after;
  const doubt = COVERAGE * Math.hypot(first.uncertainty, second.uncertainty);
  const smaller = Math.min(Math.abs(first.fall), Math.abs(second.fall));
  return left < Math.max(LEFT_SHARE * smaller, doubt);
}
