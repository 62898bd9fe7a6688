import { expect, it } from 'vitest';
import { polynomial, polynomialIntegral, powers } from '@/lib/core/fluids/polynomial';

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
