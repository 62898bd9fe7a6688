import { lagOneAutocorrelation } from '../stats/autocorrelation';
import { mean } from '../stats/spread';

/** How a series left its level: by a steady slope since a place in it, or by a step there. */
export type ChangePoint = {
  kind: 'drift' | 'shift';
  /** Place of the last value before a slope, of the first after a step [-]. */
  place: number;
  /** Change to the end of the series with its standard uncertainty [unit of the values]. */
  change: number;
  uncertainty: number;
};

/** Fewest values on either side of a change [-]: one bad week is none. */
const FEWEST_BESIDE = 7;
/** Values less autocorrelated than this at most can be judged [-]. */
const MOST_AUTOCORRELATION = 0.95;
/**
 * A level, a slope and the place where it begins, all fitted, each make the residuals' autocorrelation look smaller by
 * about (1 + 4r)/n.
 */
const FITTED = 3;

/**
 * The broken line (a level, then a slope to the end) or step that fits a series best by least squares, with the
 * uncertainty of its size in noise that is correlated from value to value.
 *
 * @param x      days [days], ascending, length n
 * @param values [any unit], length n, without wild values
 * @returns the change; its uncertainty is 0 where the fit is exact
 * @range  n ≥ 15; RangeError below
 * @source Hinkley, Inference in two-phase regression, J. Am. Stat. Assoc. 66 (1971) 736-743; effective number of values: Bayley &
 *   Hammersley, Suppl. J. R. Stat. Soc. 8 (1946) 184-197; bias of r: Marriott & Pope, Biometrika 41 (1954) 390-402
 * @check  tests/core/pipeline/balance-drift.test.ts
 */
export function bestChange(x: Float64Array, values: Float64Array): ChangePoint {
  const n = values.length;
  if (n <= 2 * FEWEST_BESIDE) throw new RangeError('a change point needs more values');
  const centre = mean(values);
  const best = leastSquares(x, values, centre);
  const shape = Float64Array.from(x, (at, i) => shapeAt(best, x, i, at));
  const middle = mean(shape);
  const residuals = values.map((value, i) => value - centre - best.size * (shape[i]! - middle));
  const found = lagOneAutocorrelation(residuals);
  const r = Math.min(MOST_AUTOCORRELATION, Math.max(0, found + (FITTED * (1 + 4 * found)) / n));
  const variance = residuals.reduce((sum, residual) => sum + residual * residual, 0) / (n - FITTED);
  const reach = shape[n - 1]!;
  return {
    kind: best.kind,
    place: best.place,
    change: best.size * reach,
    uncertainty: reach * Math.sqrt(((variance / best.spread) * (1 + r)) / (1 - r)),
  };
}

/** A shape tried: its size by least squares and the sum of squares of the shape about its mean. */
type Tried = { kind: ChangePoint['kind']; place: number; size: number; spread: number };

function shapeAt({ kind, place }: Tried, x: Float64Array, i: number, at: number): number {
  if (kind === 'shift') return i >= place ? 1 : 0;
  return Math.max(0, at - x[place]!);
}

/** Tries every place from the end backwards, with running sums over the values from there on. */
function leastSquares(x: Float64Array, values: Float64Array, centre: number): Tried {
  const n = values.length;
  let best: Tried = { kind: 'drift', place: 0, size: 0, spread: 1 };
  let explained = -1;
  let [count, sum, squares, total, products] = [0, 0, 0, 0, 0];
  const consider = (kind: Tried['kind'], place: number, along: { product: number; spread: number }) => {
    const gain = (along.product * along.product) / along.spread;
    if (!(gain > explained)) return;
    explained = gain;
    best = { kind, place, size: along.product / along.spread, spread: along.spread };
  };
  for (let place = n - 1; place >= 0; place--) {
    const at = x[place]! - x[0]!;
    const value = values[place]! - centre;
    count++;
    sum += at;
    squares += at * at;
    total += value;
    products += at * value;
    if (count < FEWEST_BESIDE || (place > 0 && place < FEWEST_BESIDE)) continue;
    const first = sum - count * at;
    const second = squares - 2 * at * sum + count * at * at;
    consider('drift', place, { product: products - at * total, spread: second - (first * first) / n });
    if (place > 0) consider('shift', place, { product: total, spread: count - (count * count) / n });
  }
  return best;
}
