import { expect, it } from 'vitest';
import { integrate } from '@/lib/core/fluids/gauss-legendre';

it('the ten-point rule integrates a polynomial of degree 19 exactly', () => {
  expect(integrate((t) => 20 * t ** 19, 0, 1)).toBeCloseTo(1, 14);
});

it('an integral over many panels is the sum of its panels', () => {
  expect(
    integrate((t) => Math.exp(t / 30), -100, 105) / (30 * (Math.exp(3.5) - Math.exp(-10 / 3))),
  ).toBeCloseTo(1, 13);
});

it('an integral changes its sign with its direction and is zero over nothing', () => {
  expect(integrate(Math.cos, 2, 0)).toBeCloseTo(-Math.sin(2), 14);
  expect(Math.abs(integrate(Math.cos, 2, 2))).toBe(0);
});
