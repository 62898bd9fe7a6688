import { describe, expect, it } from 'vitest';
import { systematicLeft } from '@/lib/core/fouling/systematic-left';
import { cycleGrowth } from '@/lib/core/pipeline/cycle-growth';
import { blankDays, dailyRecord, FIRST_DAY } from '../../support/daily-record';
import { waterUnit } from '../../support/forward-readings';

const unit = waterUnit();

describe('growth of one cycle', () => {
  it('is none without a figure', () => {
    const daily = dailyRecord(unit, { days: 5, fouling: () => 1e-5, noise: 0, seed: 1 });
    blankDays(daily, 0, 5, 0);
    const cycle = { start: null, end: null, startDay: FIRST_DAY, endDay: FIRST_DAY + 5, from: 0, to: 5 };
    expect(cycleGrowth(daily, cycle, { expected: {}, clean: 'datasheet' })).toBeNull();
  });

  it('carries the systematic uncertainty of the figures, of it only what is left with a reference learned by the same sensors', () => {
    const daily = dailyRecord(unit, { days: 100, fouling: (day) => 1e-6 * day, noise: 1e-6, seed: 8 });
    daily.foulingResistanceSystematic.fill(3e-5);
    const cycle = { start: null, end: null, startDay: FIRST_DAY, endDay: FIRST_DAY + 99, from: 0, to: 100 };
    const stated = cycleGrowth(daily, cycle, { expected: {}, clean: 'datasheet' })!;
    const learned = cycleGrowth(daily, cycle, { expected: {}, clean: 'learned' })!;
    expect(stated.foulingResistanceUncertainty).toBeGreaterThan(2.9e-5);
    // The last 14 figures: 7 days before the last.
    const left = 3e-5 * systematicLeft('learned', daily.overallU[92]! / daily.cleanU[92]!);
    expect(learned.foulingResistanceUncertainty).toBeGreaterThan(0.97 * left);
    expect(learned.foulingResistanceUncertainty).toBeLessThan(1.1 * left);
  });
});
