import { describe, expect, it } from 'vitest';
import { stepCorrelations, whiten } from '@/lib/core/fit/autoregressive';
import { triangularise } from '@/lib/core/fit/householder';
import { pivotsOf } from '@/lib/core/fit/pivots';
import { stepProducts, whitenedProducts } from '@/lib/core/fit/step-products';
import { makeRandom } from '@/lib/core/stats/random';

const random = makeRandom(7);
/** Days of which some are missing, one by one and several at once, and one reading between two days. */
const t = Float64Array.from(
  [...Array(60).keys(), 70.5].filter((day) => day % 7 !== 3 && !(day > 30 && day < 40)),
);
const columns = [t.map(() => 1), t.map((age) => age / 70), t.map(() => random.normal())];

describe('products of columns with AR(1) noise taken out', () => {
  it.each([0, 0.3, 0.95])('are those of the whitened columns, φ = %f', (phi) => {
    const rho = stepCorrelations(t, phi);
    const white = columns.map((column) => whiten(rho, column.slice()));
    const { matrix, logDeterminant } = whitenedProducts(stepProducts(t, columns), phi);
    white.forEach((a, j) => {
      for (let k = j; k < white.length; k++) {
        const direct = a.reduce((sum, value, i) => sum + value * white[k]![i]!, 0);
        expect(matrix[j * white.length + k]! / direct).toBeCloseTo(1, 10);
      }
    });
    const logarithms = rho.reduce((sum, value) => sum + Math.log1p(-value * value), 0);
    expect(logDeterminant).toBeCloseTo(logarithms, 12);
  });

  it('have as pivots the squares of the diagonal of QR, the last one those left over', () => {
    const { matrix } = whitenedProducts(stepProducts(t, columns), 0);
    const pivots = pivotsOf(matrix, 3);
    const { r, residualSumOfSquares } = triangularise(
      columns.slice(0, 2).map((column) => column.slice()),
      columns[2]!.slice(),
    );
    expect(pivots[0]! / r[0]! ** 2).toBeCloseTo(1, 12);
    expect(pivots[1]! / r[3]! ** 2).toBeCloseTo(1, 12);
    expect(pivots[2]! / residualSumOfSquares).toBeCloseTo(1, 12);
  });
});
