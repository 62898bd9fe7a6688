import { median } from '../stats/quantile';
import { NORMAL_CONSISTENCY } from '../stats/spread';

/** Noise of the daily figures about their smooth course, as an AR(1) process. */
export type StepNoise = {
  /** Standard deviation of one figure [m²·K/W]. */
  deviation: number;
  /** Correlation over one day [-], 0 to 0.8. */
  autocorrelation: number;
};

/** Autocorrelations of one day that are tried [-]; noise slower than the last cannot be told from growth. */
const TRIED = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8];
/** A figure is compared with those so many before and after it: near neighbours tell the correlation, far ones the deviation. */
const REACHES = [1, 2, 4, 7];
/** Below this many comparisons the correlation cannot be estimated and is taken as TYPICAL (own choice). */
const FEWEST_TO_ESTIMATE = 30;
const TYPICAL = 0.3;
/** Deviation of figures without any noise, relative to the largest of them [-]: numbers as good as exact. */
const LEAST_RELATIVE_DEVIATION = 1e-6;

/**
 * Deviation and autocorrelation of the noise of daily figures, whatever their growth and whether or not they step: each
 * figure is compared with the straight line between one before and one after it. The median absolute difference, divided by
 * what AR(1) noise of unit deviation would give, is the deviation; the autocorrelation is the one for which near and far
 * neighbours agree on it. A step disturbs only the few comparisons across it.
 *
 * @param t days of the figures, ascending [days], n values
 * @param y the figures [m²·K/W], n values
 * @returns deviation [m²·K/W] > 0, autocorrelation over one day [-]
 * @range  any n and gaps; TYPICAL autocorrelation below 30 comparisons
 * @source second differences: Gasser, Sroka & Jennen-Steinmetz, Residual variance and residual pattern in nonlinear regression,
 *   Biometrika 73 (1986) 625-633; robust by medians as Cressie & Hawkins, J. Int. Assoc. Math. Geol. 12 (1980) 115-125
 * @check  tests/core/cycles/step-noise.test.ts
 */
export function stepNoise(t: ArrayLike<number>, y: ArrayLike<number>): StepNoise {
  const largest = Array.from(y).reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const floor = LEAST_RELATIVE_DEVIATION * (largest || 1);
  const comparisons = REACHES.map((reach) => compare(t, y, reach));
  if (comparisons.some(({ differences }) => differences.length < FEWEST_TO_ESTIMATE)) {
    const deviation = scaleUnder(comparisons[0]!, TYPICAL) ?? 0;
    return { deviation: Math.max(floor, deviation), autocorrelation: TYPICAL };
  }
  let best: StepNoise = { deviation: floor, autocorrelation: 0 };
  let least = Number.POSITIVE_INFINITY;
  for (const autocorrelation of TRIED) {
    const scales = comparisons.map((own) => Math.log(Math.max(floor, scaleUnder(own, autocorrelation) ?? 0)));
    const centre = scales.reduce((sum, scale) => sum + scale, 0) / scales.length;
    const disagreement = scales.reduce((sum, scale) => sum + (scale - centre) ** 2, 0);
    if (disagreement >= least) continue;
    least = disagreement;
    best = { deviation: Math.exp(centre), autocorrelation };
  }
  return best;
}

/** Differences of figures from the line between two others, with the steps of time on either side and the share of the earlier. */
type Comparisons = { differences: Float64Array; before: Float64Array; after: Float64Array };

function compare(t: ArrayLike<number>, y: ArrayLike<number>, reach: number): Comparisons {
  const count = Math.max(0, y.length - 2 * reach);
  const differences = new Float64Array(count);
  const before = new Float64Array(count);
  const after = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const i = k + reach;
    before[k] = t[i]! - t[k]!;
    after[k] = t[i + reach]! - t[i]!;
    const share = after[k]! / (before[k]! + after[k]!);
    differences[k] = y[i]! - share * y[k]! - (1 - share) * y[i + reach]!;
  }
  return { differences, before, after };
}

/** Deviation of one figure [unit of y] that the differences speak for under an autocorrelation; null without any. */
function scaleUnder({ differences, before, after }: Comparisons, phi: number): number | null {
  if (differences.length === 0) return null;
  const sizes = new Float64Array(differences.length);
  // Most figures are a day apart: the same steps, and the same variance of the difference.
  let [knownBefore, knownAfter, root] = [Number.NaN, Number.NaN, 1];
  for (let k = 0; k < sizes.length; k++) {
    if (before[k] !== knownBefore || after[k] !== knownAfter) {
      [knownBefore, knownAfter] = [before[k]!, after[k]!];
      root = Math.sqrt(differenceVariance(knownBefore, knownAfter, phi));
    }
    sizes[k] = Math.abs(differences[k]!) / root;
  }
  return NORMAL_CONSISTENCY * median(sizes);
}

/** Variance of a figure's difference from the line between two others, for noise of unit variance [-]. */
function differenceVariance(before: number, after: number, phi: number): number {
  const a = after / (before + after);
  const b = 1 - a;
  const near = phi ** before;
  const far = phi ** after;
  return 1 + a * a + b * b - 2 * a * near - 2 * b * far + 2 * a * b * near * far;
}
