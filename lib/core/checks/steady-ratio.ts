/** Weights of the three exponential filters, for the value and for its two variances [-]. */
const VALUE_WEIGHT = 0.2;
const VARIANCE_WEIGHT = 0.1;
const STEP_WEIGHT = 0.1;

/** Values after which the filters have forgotten how they began, and the ratio may be judged [-]. */
export const RATIO_WARM_UP = 20;

/**
 * Ratio above which a series is not steady [-]: white noise exceeds it in about 0.2 % of values, a drift of half the noise
 * from value to value nearly always (both by simulation; the authors' own limits, of about 2, are from memory).
 */
export const CRITICAL_RATIO = 2;

/** The filters' state: filtered value, mean square about it, mean square of the steps; how many values were taken. */
export type SteadyRatio = { value: number; aboutValue: number; ofSteps: number; last: number; count: number };

/** Filters that have taken nothing. */
export function makeSteadyRatio(): SteadyRatio {
  return { value: 0, aboutValue: 0, ofSteps: 0, last: 0, count: 0 };
}

/**
 * Takes the next value of a series and gives the ratio of two estimates of its variance: about the filtered value, and from
 * the steps between neighbours. Both agree while the series is only noise about a level; a drift or a shift raises the first.
 *
 * @param state filters, changed in place; `count` 0 begins anew
 * @param value next value of the series [any unit], evenly spaced, apart far enough not to be correlated
 * @returns R [-], about 1 for white noise; 1 where nothing has moved yet
 * @range  any finite series; to be judged from the `RATIO_WARM_UP`-th value on
 * @source Cao & Rhinehart, An efficient method for on-line identification of steady state, J. Process Control 5 (1995) 363-374
 * @check  tests/core/checks/steady-ratio.test.ts
 */
export function steadyRatio(state: SteadyRatio, value: number): number {
  if (state.count++ === 0) {
    state.value = value;
    state.last = value;
    state.aboutValue = 0;
    state.ofSteps = 0;
    return 1;
  }
  // About the filtered value as it was before this one, which would else pull it along.
  const away = value - state.value;
  const step = value - state.last;
  state.aboutValue += VARIANCE_WEIGHT * (away * away - state.aboutValue);
  state.ofSteps += STEP_WEIGHT * (step * step - state.ofSteps);
  state.value += VALUE_WEIGHT * away;
  state.last = value;
  return state.ofSteps === 0 ? 1 : ((2 - VALUE_WEIGHT) * state.aboutValue) / state.ofSteps;
}
