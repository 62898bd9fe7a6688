import { describe, expect, it } from 'vitest';
import { leastOfPolynomial, polynomial, polynomialIntegral, powers } from '@/lib/core/fluids/polynomial';
import { makeRandom } from '@/lib/core/stats/random';

it('a polynomial is the sum of its powers', () => {
  expect(polynomial([2, -3, 0.5], 4)).toBe(2 - 12 + 8);
  expect(polynomial([], 4)).toBe(0);
});

it('the integral of a polynomial from 0 to x is exact', () => {
  expect(polynomialIntegral([2, -3, 0.75], 4)).toBe(8 - 24 + 16);
  expect(polynomialIntegral([2, -3, 0.75], 0)).toBe(0);
});

it('powers start at one and go up to the highest asked for', () => {
  expect([...powers(-2, 4)]).toEqual([1, -2, 4, -8, 16]);
  expect([...powers(7, 0)]).toEqual([1]);
});

describe('the least value of a polynomial', () => {
  it('lies at an end or inside', () => {
    expect(leastOfPolynomial([3], -1, 5)).toEqual({ at: -1, value: 3 });
    expect(leastOfPolynomial([3, -2], 0, 4)).toEqual({ at: 4, value: -5 });
    const { at, value } = leastOfPolynomial([10, -6, 1], 0, 10);
    expect([at, value]).toEqual([expect.closeTo(3, 12), expect.closeTo(1, 12)]);
  });

  it('is found in a dip that a grid of whole degrees would step over', () => {
    // (t − 41.234)²·(t − 80)² + t/1000: two narrow dips, the first the deeper one; whole degrees step over it.
    const dip = (c: number) => [c * c, -2 * c, 1];
    const product = multiply(dip(41.234), dip(80));
    product[1]! += 1e-3;
    const least = leastOfPolynomial(product, 0, 100);
    expect(least.at).toBeCloseTo(41.234, 3);
    expect(least.value).toBeCloseTo(0.041234, 5);
  });

  it('is that of a dense search, for 300 random polynomials of up to nine coefficients', () => {
    const random = makeRandom(20_260_311);
    for (let run = 0; run < 300; run++) {
      const coefficients = Array.from({ length: 1 + (run % 9) }, () => random.uniform() * 2 - 1);
      let searched = Number.POSITIVE_INFINITY;
      for (let i = 0; i <= 20_000; i++) {
        searched = Math.min(searched, polynomial(coefficients, -2 + (4 * i) / 20_000));
      }
      const { value } = leastOfPolynomial(coefficients, -2, 2);
      expect(value).toBeLessThanOrEqual(searched + 1e-12);
      expect(searched - value).toBeLessThan(1e-4);
    }
  });
});

function multiply(a: number[], b: number[]): number[] {
  const product = new Array<number>(a.length + b.length - 1).fill(0);
  for (const [i, x] of a.entries()) {
    for (const [j, y] of b.entries()) product[i + j] = product[i + j]! + x * y;
  }
  return product;
}
