import { describe, expect, it } from 'vitest';
import { growthForm, growthFormSlope, growthRate, growthValue } from '@/lib/core/growth/forms';
import type { GrowthModelName } from '@/lib/core/growth/growth';

const SHAPES: Record<GrowthModelName, number> = {
  none: 0,
  linear: 0,
  'delayed-linear': 25,
  'falling-rate': 0.6,
  asymptotic: 90,
};

describe('growth forms', () => {
  for (const [name, shape] of Object.entries(SHAPES) as [GrowthModelName, number][]) {
    it(`${name}: the slope is the derivative of the form, and the form does not fall`, () => {
      for (const t of [5, 40, 300]) {
        const difference = (growthForm(name, shape, t + 1e-4) - growthForm(name, shape, t - 1e-4)) / 2e-4;
        expect(growthFormSlope(name, shape, t)).toBeCloseTo(difference, 7);
        expect(difference).toBeGreaterThanOrEqual(0);
      }
      expect(growthForm(name, shape, 0)).toBe(0);
    });
  }

  it('value and rate of a model without growth are r0 and 0, at any age', () => {
    const model = { name: 'none' as const, parameters: { r0: 3e-5 } };
    expect(growthValue(model, 100)).toBe(3e-5);
    expect(growthRate(model, 0)).toBe(0);
  });

  it('a power of time whose coefficient is 0 has no infinite rate at age 0', () => {
    expect(
      growthRate({ name: 'falling-rate', parameters: { r0: 0, coefficient: 0, exponent: 0.5 } }, 0),
    ).toBe(0);
  });
});
