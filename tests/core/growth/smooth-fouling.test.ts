import { describe, expect, it } from 'vitest';
import { fitGrowth } from '@/lib/core/growth/fit-growth';
import { growthValue } from '@/lib/core/growth/forms';
import { smoothFouling } from '@/lib/core/growth/smooth-fouling';

describe('averaged smooth fouling', () => {
  const ageDays = Float64Array.from({ length: 40 }, (_, i) => i + 1);
  const foulingResistance = ageDays.map((t) => 1e-6 * t + 3e-6 * Math.sin(7 * t));
  const growth = fitGrowth({ ageDays, foulingResistance, uncertainty: ageDays.map(() => 2e-6) });

  it('is the sum of the models by their weight, so that it can be redone by hand', () => {
    const sum = growth.models.reduce((total, model) => total + model.weight * growthValue(model, 25), 0);
    expect(smoothFouling(growth, 25)).toBeCloseTo(sum, 18);
  });

  it('is the stated fouling at the last figure', () => {
    expect(smoothFouling(growth, growth.lastAgeDays)).toBe(growth.foulingResistance);
  });

  it('is NaN without models', () => expect(smoothFouling({ models: [] }, 1)).toBeNaN());
});
