import { describe, expect, it } from 'vitest';
import { REASONS, type Reason } from '@/lib/core/checks/reasons';
import { dataHealth } from '@/lib/core/pipeline/data-health';
import { makeDailyColumns } from '@/lib/core/series/daily-columns';

/** One row a day from day 100 on: accepted of 24 readings and the day's worst reason. */
function record(rows: { accepted: number; worst: Reason | null }[]) {
  const daily = makeDailyColumns(rows.length);
  rows.forEach(({ accepted, worst }, row) => {
    daily.day[row] = 100 + row;
    daily.readings[row] = 24;
    daily.accepted[row] = accepted;
    daily.worstReason[row] = worst === null ? -1 : REASONS.indexOf(worst);
  });
  return daily;
}
const good = { accepted: 24, worst: null };
const dead = { accepted: 0, worst: 'frozen-sensor' as const };
const spiky = { accepted: 22, worst: 'spike' as const };
const repeat = <T>(row: T, times: number): T[] => new Array<T>(times).fill(row);

describe('data health', () => {
  it('is whole where every reading of the last 30 days is usable', () => {
    const daily = record([...repeat(dead, 5), ...repeat(good, 30)]);
    expect(dataHealth(daily, 134)).toEqual({ usable: 1, worstReason: null, sinceDay: null });
  });

  it('is the usable share, the reason that left out most, and the day since when it rules without a break', () => {
    const daily = record([...repeat(good, 10), dead, ...repeat(good, 9), spiky, spiky, ...repeat(dead, 8)]);
    expect(dataHealth(daily, 129)).toEqual({
      usable: (19 * 24 + 44) / (30 * 24),
      worstReason: 'frozen-sensor',
      sinceDay: 122,
    });
  });

  it('goes back beyond the 30 days for the day it began', () => {
    expect(dataHealth(record([...repeat(good, 5), ...repeat(dead, 60)]), 164)).toEqual({
      usable: 0,
      worstReason: 'frozen-sensor',
      sinceDay: 105,
    });
  });

  it('judges a unit that rests every night by the hours it runs', () => {
    const daily = record(repeat(good, 30));
    daily.accepted.fill(12);
    daily.off.fill(12);
    daily.worstReason.fill(REASONS.indexOf('unit-off'));
    expect(dataHealth(daily, 129)).toEqual({ usable: 1, worstReason: null, sinceDay: null });
  });

  it('says of a unit that never ran that it stands still', () => {
    const daily = record(repeat(good, 30));
    daily.accepted.fill(0);
    daily.off.fill(24);
    daily.worstReason.fill(REASONS.indexOf('unit-off'));
    expect(dataHealth(daily, 129)).toEqual({ usable: null, worstReason: 'unit-off', sinceDay: 100 });
  });

  it('without readings says that they are missing since the day after the last', () => {
    expect(dataHealth(record(repeat(good, 10)), 160)).toEqual({
      usable: null,
      worstReason: 'missing',
      sinceDay: 110,
    });
  });
});
