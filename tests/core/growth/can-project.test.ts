import { describe, expect, it } from 'vitest';
import { canProject } from '@/lib/core/growth/can-project';
import { fitGrowth } from '@/lib/core/growth/fit-growth';
import { expectedForms, typicalForms } from '@/lib/core/growth/pool-forms';

function growthOf(count: number, hasPrior: boolean) {
  const ageDays = Array.from({ length: count }, (_, i) => i);
  return fitGrowth({
    ageDays,
    foulingResistance: ageDays.map((age) => 1e-5 + 1e-7 * age),
    uncertainty: ageDays.map(() => 1e-6),
    ...(hasPrior
      ? { prior: { ratePerDay: 1e-7, ratePerDayUncertainty: 3e-8 }, forms: expectedForms(typicalForms([])) }
      : {}),
  });
}

describe('canProject', () => {
  it('is false below 8 daily figures without an earlier cycle to lend a rate, true from 8 on', () => {
    expect([0, 1, 2, 3, 7].map((count) => canProject(growthOf(count, false)))).toEqual(Array(5).fill(false));
    expect(canProject(growthOf(8, false))).toBe(true);
  });

  it('is true from the first figure on with an earlier cycle', () => {
    expect([1, 3, 7].map((count) => canProject(growthOf(count, true)))).toEqual([true, true, true]);
  });
});
