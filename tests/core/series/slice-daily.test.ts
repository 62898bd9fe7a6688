import { describe, expect, it } from 'vitest';
import { makeDailyColumns } from '@/lib/core/series/daily-columns';
import { fromLocalDay, upToLocalDay } from '@/lib/core/series/slice-daily';

const daily = makeDailyColumns(3);
daily.day.set([10, 12, 13]);
daily.duty.set([1, 2, 3]);

describe('fromLocalDay', () => {
  it('keeps the rows from a day on, whether or not that day has one', () => {
    expect(Array.from(fromLocalDay(daily, 12).duty)).toEqual([2, 3]);
    expect(Array.from(fromLocalDay(daily, 11).duty)).toEqual([2, 3]);
    expect(Array.from(fromLocalDay(daily, 1).day)).toEqual([10, 12, 13]);
  });

  it('is empty after the last day', () => {
    expect(fromLocalDay(daily, 14).day.length).toBe(0);
  });
});

describe('upToLocalDay', () => {
  it('keeps the rows up to a day, whether or not that day has one', () => {
    expect(Array.from(upToLocalDay(daily, 12).duty)).toEqual([1, 2]);
    expect(Array.from(upToLocalDay(daily, 11).duty)).toEqual([1]);
    expect(Array.from(upToLocalDay(daily, 20).day)).toEqual([10, 12, 13]);
    expect(upToLocalDay(daily, 9).day.length).toBe(0);
  });
});
