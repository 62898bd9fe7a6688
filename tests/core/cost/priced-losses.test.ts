import { describe, expect, it } from 'vitest';
import type { DailyLosses } from '@/lib/core/cost/daily-losses';
import { pricedLosses } from '@/lib/core/cost/priced-losses';

const column = (values: number[]) => Float64Array.from(values);

function lossesOf(heat: number[], pumping: number[] = heat.map(() => Number.NaN)): DailyLosses {
  const none = () => column(heat.map(() => Number.NaN));
  return {
    day: Int32Array.from(heat, (_, i) => 100 + i),
    heat: column(heat),
    pumping: column(pumping),
    extraFlow: none(),
    marginLeft: none(),
    isBridged: Uint8Array.from(heat, (_, i) => i % 2),
  };
}

const ever = { firstDay: 0, lastDay: 10_000 };
const from = (fromDay: number, perJoule: number) => [{ fromDay, perJoule }];

describe('losses at dated rates', () => {
  it('takes each day at the rate that held on it', () => {
    const heat = [...from(0, 2), ...from(102, 3)];
    expect(pricedLosses(lossesOf([10, 10, 10, 10]), { heat, pumping: [] }, ever)).toEqual({
      days: 4,
      bridgedDays: 2,
      heat: 40,
      pumping: null,
      money: 20 + 20 + 30 + 30,
      unpricedDays: 0,
      unpricedPumpingDays: 0,
    });
  });

  it('counts both ends of the period and nothing beyond', () => {
    const priced = pricedLosses(
      lossesOf([1, 2, 4, 8]),
      { heat: from(0, 1), pumping: [] },
      { firstDay: 101, lastDay: 102 },
    );
    expect(priced).toMatchObject({ days: 2, heat: 6, money: 6 });
  });

  it('calls days before the first rate unpriced, not free', () => {
    const priced = pricedLosses(lossesOf([5, 5, 5]), { heat: from(102, 1), pumping: [] }, ever);
    expect(priced).toMatchObject({ heat: 15, money: 5, unpricedDays: 2 });
    expect(pricedLosses(lossesOf([5, 5, 5]), { heat: [], pumping: [] }, ever)).toMatchObject({
      money: null,
      unpricedDays: 3,
    });
  });

  it('adds the work of the pumps where it is known, at its own rate', () => {
    const losses = lossesOf([5, 5, 5], [Number.NaN, 2, 3]);
    expect(pricedLosses(losses, { heat: from(0, 1), pumping: from(102, 10) }, ever)).toMatchObject({
      pumping: 5,
      money: 15 + 30,
      unpricedDays: 0,
      unpricedPumpingDays: 1,
    });
  });

  it('needs no price of heat for a unit that loses none', () => {
    const losses = lossesOf([0, 0], [7, 7]);
    expect(pricedLosses(losses, { heat: [], pumping: from(0, 1) }, ever)).toMatchObject({
      money: 14,
      unpricedDays: 0,
    });
  });

  it('of no day is nothing, at no price', () => {
    expect(pricedLosses(lossesOf([]), { heat: from(0, 1), pumping: [] }, ever)).toMatchObject({
      days: 0,
      heat: 0,
      money: null,
    });
  });
});
