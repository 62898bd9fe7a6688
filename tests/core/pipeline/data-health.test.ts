import { describe, expect, it } from 'vitest';
import { REASONS, type Reason } from '@/lib/core/checks/reasons';
import { dataHealth } from '@/lib/core/pipeline/data-health';
import { makeDailyColumns } from '@/lib/core/series/daily-columns';
import { makeRandom } from '@/lib/core/stats/random';

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
/** Without a balance in the record there is no drift. */
const judged = (daily: ReturnType<typeof record>, today: number) => {
  const { drift, ...health } = dataHealth(daily, today);
  expect(drift).toBeNull();
  return health;
};
const good = { accepted: 24, worst: null };
const dead = { accepted: 0, worst: 'frozen-sensor' as const };
const spiky = { accepted: 22, worst: 'spike' as const };
const repeat = <T>(row: T, times: number): T[] => new Array<T>(times).fill(row);

describe('data health', () => {
  it('is whole where every reading of the last 30 days is usable', () => {
    const daily = record([...repeat(dead, 5), ...repeat(good, 30)]);
    expect(judged(daily, 134)).toEqual({
      usable: 1,
      worstReason: null,
      sinceDay: null,
      suspectSinceDay: null,
    });
  });

  it('is the usable share, the reason that left out most, and the day since when it rules without a break', () => {
    const daily = record([...repeat(good, 10), dead, ...repeat(good, 9), spiky, spiky, ...repeat(dead, 8)]);
    expect(judged(daily, 129)).toEqual({
      usable: (19 * 24 + 44) / (30 * 24),
      worstReason: 'frozen-sensor',
      sinceDay: 122,
      suspectSinceDay: 122,
    });
  });

  it('goes back beyond the 30 days for the day it began', () => {
    expect(judged(record([...repeat(good, 5), ...repeat(dead, 60)]), 164)).toEqual({
      usable: 0,
      worstReason: 'frozen-sensor',
      sinceDay: 105,
      suspectSinceDay: 105,
    });
  });

  it('judges a unit that rests every night by the hours it runs', () => {
    const daily = record(repeat(good, 30));
    daily.accepted.fill(12);
    daily.off.fill(12);
    daily.worstReason.fill(REASONS.indexOf('unit-off'));
    expect(judged(daily, 129)).toEqual({
      usable: 1,
      worstReason: null,
      sinceDay: null,
      suspectSinceDay: null,
    });
  });

  it('says of a unit that never ran that it stands still', () => {
    const daily = record(repeat(good, 30));
    daily.accepted.fill(0);
    daily.off.fill(24);
    daily.worstReason.fill(REASONS.indexOf('unit-off'));
    expect(judged(daily, 129)).toEqual({
      usable: null,
      worstReason: 'unit-off',
      sinceDay: 100,
      suspectSinceDay: null,
    });
  });

  it('without readings says that they are missing since the day after the last', () => {
    expect(judged(record(repeat(good, 10)), 160)).toEqual({
      usable: null,
      worstReason: 'missing',
      sinceDay: 110,
      suspectSinceDay: 110,
    });
  });

  it('makes no sensor suspect for a few spikes, for unsteady running, or for what a person left out', () => {
    const few = record([...repeat(good, 28), spiky, spiky]);
    expect(judged(few, 129)).toMatchObject({ worstReason: 'spike', sinceDay: 128, suspectSinceDay: null });
    for (const reason of ['not-steady', 'flow-below-turndown', 'excluded-by-person'] as const) {
      const daily = record(repeat({ accepted: 12, worst: reason }, 30));
      expect(judged(daily, 129)).toMatchObject({ usable: 0.5, worstReason: reason, suspectSinceDay: null });
    }
  });

  it('calls the data suspect from where the balance began to drift, or the reason to rule, whichever is earlier', () => {
    const drifting = (rows: Parameters<typeof record>[0]) => {
      const daily = record(rows);
      const random = makeRandom(5);
      for (let row = 0; row < rows.length; row++)
        daily.balance[row] = 0.002 * random.normal() + 0.0004 * Math.max(0, row - 90);
      return dataHealth(daily, 100 + rows.length - 1);
    };
    const sound = drifting(repeat(good, 150));
    expect(sound).toMatchObject({ usable: 1, worstReason: null, sinceDay: null });
    expect(sound.suspectSinceDay).toBe(sound.drift!.sinceDay);
    expect(Math.abs(sound.suspectSinceDay! - 190)).toBeLessThanOrEqual(10);
    expect(drifting([...repeat(good, 140), ...repeat(dead, 10)]).suspectSinceDay).toBe(sound.suspectSinceDay);
    expect(drifting([...repeat(good, 60), ...repeat(dead, 90)]).suspectSinceDay).toBe(160);
  });
});
