import { describe, expect, it } from 'vitest';
import { formColumn, growthColumn } from '@/lib/core/growth/form-column';
import { GROWTH_FORMS } from '@/lib/core/growth/form-grid';
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

describe('a form at many ages', () => {
  const columnOf = (name: GrowthModelName, shape: number, t: Float64Array) =>
    formColumn(name, shape, { t, out: new Float64Array(t.length) });

  it('is the form at each of them but for rounding, whole days or not, asked for once or again', () => {
    const ages = [0, 1, 2.5, 30, 31, 364.25, 400, 5000];
    const forms = [...GROWTH_FORMS, ...Object.entries(SHAPES).map(([name, shape]) => ({ name, shape }))];
    for (const { name, shape } of forms as { name: GrowthModelName; shape: number }[]) {
      for (const count of [3, ages.length, ages.length]) {
        const t = Float64Array.from(ages.slice(0, count));
        const column = columnOf(name, shape, t);
        t.forEach((at, i) => {
          expect(Math.abs(column[i]! - growthForm(name, shape, at))).toBeLessThanOrEqual(1e-14 * column[i]!);
        });
        expect([...columnOf(name, shape, t)]).toEqual([...column]);
      }
    }
  });

  it('is no further off after ten years of days', () => {
    const t = Float64Array.from({ length: 4000 }, (_, i) => i);
    for (const timeConstant of [4, 90, 3000]) {
      const column = columnOf('asymptotic', timeConstant, t);
      const worst = t.reduce((most, at, i) => {
        return Math.max(most, Math.abs(column[i]! / growthForm('asymptotic', timeConstant, at) - 1) || 0);
      }, 0);
      expect(worst).toBeLessThan(1e-13);
    }
  });

  it('times the amplitude and from r0 on is the smooth fouling', () => {
    const model = {
      name: 'asymptotic' as const,
      parameters: { r0: 1e-5, asymptote: 2e-4, timeConstant: 80 },
    };
    const t = Float64Array.of(0, 10, 400);
    const column = growthColumn(model, { t, out: new Float64Array(3) });
    t.forEach((at, i) => {
      expect(column[i]! / growthValue(model, at)).toBeCloseTo(1, 13);
    });
  });

  it('is empty without ages', () => {
    expect(columnOf('asymptotic', 90, new Float64Array())).toHaveLength(0);
  });
});
