import { selectInPlace } from '../stats/select-in-place';
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
  const floor = LEAST_RELATIVE_DEVIATION * (largestOf(y) || 1);
  const comparisons = REACHES.map((reach) => compare(t, y, reach));
  if (comparisons.some(({ count }) => count < FEWEST_TO_ESTIMATE)) {
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

function largestOf(y: ArrayLike<number>): number {
  let largest = 0;
  for (let i = 0; i < y.length; i++) largest = Math.max(largest, Math.abs(y[i]!));
  return largest;
}

/** Days from a figure to the two that it is compared with. */
type Steps = { before: number; after: number };

/** Sizes of the differences of figures from the line between two others, each over the steps of its kind. */
type Differences = { sizes: Float64Array; kinds: Int32Array };

/** Comparisons over one reach: those over the commonest steps, in order as far as a median asks for it, and all others. */
type Comparisons = {
  count: number;
  steps: Steps[];
  usual: number;
  ordered: Float64Array;
  others: Differences;
};

function compare(t: ArrayLike<number>, y: ArrayLike<number>, reach: number): Comparisons {
  const count = Math.max(0, y.length - 2 * reach);
  const all: Differences = { sizes: new Float64Array(count), kinds: new Int32Array(count) };
  const steps: Steps[] = [{ before: reach, after: reach }];
  let kind = 0;
  for (let k = 0; k < count; k++) {
    const i = k + reach;
    const before = t[i]! - t[k]!;
    const after = t[i + reach]! - t[i]!;
    if (before !== steps[kind]!.before || after !== steps[kind]!.after) kind = kindOf(steps, before, after);
    const share = after / (before + after);
    all.sizes[k] = Math.abs(y[i]! - share * y[k]! - (1 - share) * y[i + reach]!);
    all.kinds[k] = kind;
  }
  return { count, steps, ...parted(all, steps.length) };
}

function kindOf(steps: Steps[], before: number, after: number): number {
  for (let kind = 0; kind < steps.length; kind++)
    if (steps[kind]!.before === before && steps[kind]!.after === after) return kind;
  return steps.push({ before, after }) - 1;
}

/** Parts the differences over the commonest steps from all others: most figures are a day apart. */
function parted({ sizes, kinds }: Differences, kindCount: number) {
  const counts = new Int32Array(kindCount);
  for (let k = 0; k < kinds.length; k++) counts[kinds[k]!]!++;
  const usual = counts.reduce((most, each, kind) => (each > counts[most]! ? kind : most), 0);
  const ordered = new Float64Array(counts[usual]!);
  const rest = sizes.length - ordered.length;
  const others: Differences = { sizes: new Float64Array(rest), kinds: new Int32Array(rest) };
  let taken = 0;
  for (let k = 0; k < sizes.length; k++) {
    if (kinds[k] === usual) {
      ordered[taken++] = sizes[k]!;
      continue;
    }
    others.sizes[k - taken] = sizes[k]!;
    others.kinds[k - taken] = kinds[k]!;
  }
  orderMiddle(ordered, rest);
  return { usual, ordered, others };
}

/** Puts those in order that can be a median of them with some others. Once: whatever the correlation, their order is the same. */
function orderMiddle(values: Float64Array, others: number): void {
  const middle = (values.length + others - 1) / 2;
  const first = Math.max(0, Math.floor(middle) - others);
  const last = Math.min(values.length - 1, Math.ceil(middle));
  selectInPlace(values, values.length, first);
  const above = values.subarray(first);
  selectInPlace(above, above.length, last - first);
  above.subarray(0, last - first).sort();
}

/** Deviation of one figure [unit of y] that the differences speak for under an autocorrelation; null without any. */
function scaleUnder({ count, steps, usual, ordered, others }: Comparisons, phi: number): number | null {
  if (count === 0) return null;
  const roots = steps.map(({ before, after }) => Math.sqrt(differenceVariance(before, after, phi)));
  const rest = others.sizes.map((size, k) => size / roots[others.kinds[k]!]!).sort();
  const middle = (count - 1) / 2;
  const low = ofRank(Math.floor(middle), { ordered, root: roots[usual]!, rest });
  const high = ofRank(Math.ceil(middle), { ordered, root: roots[usual]!, rest });
  return NORMAL_CONSISTENCY * (low + 0.5 * (high - low));
}

type Merged = { ordered: Float64Array; root: number; rest: Float64Array };

/** Value of a rank among the ordered ones over a root together with the rest. */
function ofRank(rank: number, { ordered, root, rest }: Merged): number {
  let ofRest = 0;
  while (ofRest <= rank && ofRest < rest.length && !(valueAt(ordered, rank - ofRest) / root <= rest[ofRest]!))
    ofRest++;
  const last = ofRest > 0 ? rest[ofRest - 1]! : 0;
  return ofRest > rank ? last : Math.max(last, valueAt(ordered, rank - ofRest) / root);
}

function valueAt(ordered: Float64Array, place: number): number {
  return place < ordered.length ? ordered[place]! : Number.POSITIVE_INFINITY;
}

/** Variance of a figure's difference from the line between two others, for noise of unit variance [-]. */
function differenceVariance(before: number, after: number, phi: number): number {
  const a = after / (before + after);
  const b = 1 - a;
  const near = phi ** before;
  const far = phi ** after;
  return 1 + a * a + b * b - 2 * a * near - 2 * b * far + 2 * a * b * near * far;
}
