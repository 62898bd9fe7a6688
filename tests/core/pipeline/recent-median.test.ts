import { describe, expect, it } from 'vitest';
import { RECENT_FIGURES } from '@/lib/core/pipeline/recent-conditions';
import { recentMedian } from '@/lib/core/pipeline/recent-median';
import { makeDailyColumns } from '@/lib/core/series/daily-columns';

describe('what a daily column shows of late', () => {
  const daily = makeDailyColumns(30);
  daily.foulingResistance.fill(1e-4);
  daily.hotMassFlow.set(Float64Array.from({ length: 30 }, (_, day) => day));

  it('is the median over the last fourteen days with a figure', () => {
    expect(recentMedian(daily, daily.hotMassFlow)).toBe((29 + (30 - RECENT_FIGURES)) / 2);
  });

  it('passes over days without a figure, and is NaN where nothing was measured', () => {
    daily.foulingResistance.fill(Number.NaN, 25);
    expect(recentMedian(daily, daily.hotMassFlow)).toBe((24 + (25 - RECENT_FIGURES)) / 2);
    expect(recentMedian(daily, daily.coldPressureDrop)).toBeNaN();
    expect(recentMedian(makeDailyColumns(0), new Float64Array(0))).toBeNaN();
  });
});
