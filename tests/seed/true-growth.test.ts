import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crossingAge, trueFouling, trueGrowth } from '@/seed/generate/true-growth';
import type { GrowthPlan } from '@/seed/generate/unit-plan';

const LIMIT = 2e-4;

const growths = fc.oneof(
  fc.record({
    kind: fc.constant('linear' as const),
    limitAtDays: fc.double({ min: 20, max: 900, noNaN: true }),
  }),
  fc.record({
    kind: fc.constant('delayed-linear' as const),
    delayDays: fc.double({ min: 0, max: 19, noNaN: true }),
    limitAtDays: fc.double({ min: 20, max: 900, noNaN: true }),
  }),
  fc.record({
    kind: fc.constant('falling-rate' as const),
    exponent: fc.double({ min: 0.3, max: 0.95, noNaN: true }),
    limitAtDays: fc.double({ min: 20, max: 900, noNaN: true }),
  }),
  fc.record({
    kind: fc.constant('asymptotic' as const),
    asymptoteShare: fc.double({ min: 1.05, max: 3, noNaN: true }),
    timeConstantDays: fc.double({ min: 10, max: 400, noNaN: true }),
  }),
);

describe('true growth of fouling', () => {
  it('reaches the limit at the planned age when it starts from clean', () => {
    const plans: GrowthPlan[] = [
      { kind: 'linear', limitAtDays: 150 },
      { kind: 'delayed-linear', delayDays: 30, limitAtDays: 150 },
      { kind: 'falling-rate', exponent: 0.6, limitAtDays: 150 },
    ];
    for (const plan of plans) expect(trueFouling(trueGrowth(plan, LIMIT, 0), 150)).toBeCloseTo(LIMIT, 15);
  });

  it('is at the limit at its crossing age, whatever the law and whatever a cleaning left behind', () => {
    fc.assert(
      fc.property(growths, fc.double({ min: 0, max: 0.8, noNaN: true }), (plan, left) => {
        const growth = trueGrowth(plan, LIMIT, left * LIMIT);
        const age = crossingAge(growth, LIMIT);
        expect(age).not.toBeNull();
        expect(Math.abs(trueFouling(growth, age!) / LIMIT - 1)).toBeLessThan(1e-9);
      }),
      { seed: 20_261, numRuns: 500 },
    );
  });

  it('never crosses where nothing grows or the asymptote stays below the limit', () => {
    const plans: GrowthPlan[] = [
      { kind: 'none' },
      { kind: 'asymptotic', asymptoteShare: 0.6, timeConstantDays: 80 },
    ];
    for (const plan of plans) expect(crossingAge(trueGrowth(plan, LIMIT, 0), LIMIT)).toBeNull();
  });
});
