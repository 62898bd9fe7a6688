import { expect, it } from 'vitest';
import { DRY_AIR } from '@/lib/core/fluids/air-table';
import { helmholtzDensity, vibrationHeat } from '@/lib/core/fluids/helmholtz';

it('a density comes back from any start of its phase', () => {
  const state = { temperature: 20, pressure: 7e5 };
  expect(helmholtzDensity(DRY_AIR, state, 4) / helmholtzDensity(DRY_AIR, state, 12)).toBeCloseTo(1, 14);
});

it('a density that does not settle is not a number', () => {
  expect(helmholtzDensity(DRY_AIR, { temperature: 20, pressure: Number.NaN }, 1)).toBeNaN();
});

it('a vibration is fully excited when hot and asleep when cold', () => {
  expect(vibrationHeat(1e-4)).toBeCloseTo(1, 8);
  expect(vibrationHeat(40)).toBeLessThan(1e-13);
  // x²·eˣ/(eˣ − 1)² at x = 1.
  expect(vibrationHeat(1)).toBeCloseTo(Math.E / (Math.E - 1) ** 2, 14);
});
