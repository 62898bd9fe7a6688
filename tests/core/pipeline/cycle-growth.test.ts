import { describe, expect, it } from 'vitest';
import { systematicLeft } from '@/lib/core/fouling/systematic-left';
import { cycleGrowth, priorFromCycles } from '@/lib/core/pipeline/cycle-growth';
import { blankDays, dailyRecord, FIRST_DAY } from '../../support/daily-record';
import { waterUnit } from '../../support/forward-readings';

const unit = waterUnit();
const growthOf = (rate: number, days: number) => {
  const daily = dailyRecord(unit, { days, fouling: (day) => rate * day, noise: 1e-6, seed: 8 });
  const cycle = { start: null, end: null, startDay: FIRST_DAY, endDay: FIRST_DAY + days, from: 0, to: days };
  return cycleGrowth(daily, cycle, { prior: null, clean: 'datasheet' });
};

describe('growth of one cycle', () => {
  it('is none without a figure', () => {
    const daily = dailyRecord(unit, { days: 5, fouling: () => 1e-5, noise: 0, seed: 1 });
    blankDays(daily, 0, 5, 0);
    const cycle = { start: null, end: null, startDay: FIRST_DAY, endDay: FIRST_DAY + 5, from: 0, to: 5 };
    expect(cycleGrowth(daily, cycle, { prior: null, clean: 'datasheet' })).toBeNull();
  });

  it('carries the systematic uncertainty of the figures, of it only what is left with a reference learned by the same sensors', () => {
    const daily = dailyRecord(unit, { days: 100, fouling: (day) => 1e-6 * day, noise: 1e-6, seed: 8 });
    daily.foulingResistanceSystematic.fill(3e-5);
    const cycle = { start: null, end: null, startDay: FIRST_DAY, endDay: FIRST_DAY + 99, from: 0, to: 100 };
    const stated = cycleGrowth(daily, cycle, { prior: null, clean: 'datasheet' })!;
    const learned = cycleGrowth(daily, cycle, { prior: null, clean: 'learned' })!;
    expect(stated.foulingResistanceUncertainty).toBeGreaterThan(2.9e-5);
    // The last 14 figures: 7 days before the last.
    const left = 3e-5 * systematicLeft('learned', daily.overallU[92]! / daily.cleanU[92]!);
    expect(learned.foulingResistanceUncertainty).toBeGreaterThan(0.97 * left);
    expect(learned.foulingResistanceUncertainty).toBeLessThan(1.1 * left);
  });
});

describe('what earlier cycles say of the next', () => {
  it('is their median rate over the days all of them cover, with the spread between them', () => {
    const prior = priorFromCycles([growthOf(1e-6, 60), growthOf(2e-6, 100), growthOf(1.5e-6, 80), null])!;
    expect(Math.abs(prior.ratePerDay / 1.5e-6 - 1)).toBeLessThan(0.05);
    expect(prior.overDays).toBe(59);
    // Standard deviation 0.5e-6 of three, for a fourth: times √(1 + 1/3).
    expect(Math.abs(prior.ratePerDayUncertainty / (0.5e-6 * Math.sqrt(4 / 3)) - 1)).toBeLessThan(0.1);
  });

  it('is half as sure of a single cycle, and never surer than a quarter', () => {
    const one = priorFromCycles([growthOf(1e-6, 60)])!;
    expect(one.ratePerDayUncertainty / one.ratePerDay).toBeCloseTo(0.5, 9);
    const same = priorFromCycles([growthOf(1e-6, 60), growthOf(1e-6, 60)])!;
    expect(same.ratePerDayUncertainty / same.ratePerDay).toBeCloseTo(0.25, 9);
  });

  it('is nothing where they are too short or did not grow', () => {
    expect(priorFromCycles([])).toBeNull();
    expect(priorFromCycles([growthOf(1e-6, 12), null])).toBeNull();
    expect(priorFromCycles([growthOf(-1e-6, 60)])).toBeNull();
  });
});
