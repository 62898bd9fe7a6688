import { describe, expect, it } from 'vitest';
import { projectedLosses } from '@/lib/core/cost/projected-losses';

const expected = { ageDays: [0, 7, 10], lostDuty: [0, 70, 100], pumping: [1, 1, 4], isPumpingKnown: true };
const watts = (column: Float64Array) =>
  [...column].map((joules) => Math.round((joules / 86_400) * 1e6) / 1e6);

describe('expected losses of the days to come', () => {
  it('lie on straight lines between the ages, from tomorrow on', () => {
    const losses = projectedLosses(expected, { today: 500, lastDay: 508 });
    expect([...losses.day]).toEqual([501, 502, 503, 504, 505, 506, 507, 508]);
    expect(watts(losses.heat)).toEqual([10, 20, 30, 40, 50, 60, 70, 80]);
    expect(watts(losses.pumping)).toEqual([1, 1, 1, 1, 1, 1, 1, 2]);
  });

  it('end with the last age', () => {
    expect(projectedLosses(expected, { today: 500, lastDay: 900 }).day.at(-1)).toBe(510);
    expect(projectedLosses(expected, { today: 500, lastDay: 400 }).day).toHaveLength(0);
    expect(() => projectedLosses({ ...expected, ageDays: [] }, { today: 0, lastDay: 1 })).toThrow(RangeError);
  });

  it('say nothing of pumps of which nothing is known', () => {
    const losses = projectedLosses({ ...expected, isPumpingKnown: false }, { today: 500, lastDay: 502 });
    expect([...losses.pumping]).toEqual([Number.NaN, Number.NaN]);
  });
});
