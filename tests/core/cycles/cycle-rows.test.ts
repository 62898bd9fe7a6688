import { describe, expect, it } from 'vitest';
import { cycleRows } from '@/lib/core/cycles/cycle-rows';
import { splitCycles } from '@/lib/core/cycles/split-cycles';
import { makeDailyColumns } from '@/lib/core/series/daily-columns';
import { DAY_MS } from '../../support/forward-readings';

const daily = makeDailyColumns(10);
daily.day.set(Array.from({ length: 10 }, (_, row) => 100 + row));
daily.firstAccepted.set(Array.from(daily.day, (day) => day * DAY_MS));

describe('rows of cycles told before', () => {
  it('are those that the record was split into', () => {
    const cleanings = [
      { at: 103.5 * DAY_MS, localDay: 103 },
      { at: 106 * DAY_MS, localDay: 106 },
    ];
    const spans = splitCycles(daily, cleanings);
    const told = spans.map(({ start, startDay }) => ({ start, startDay }));
    expect(cycleRows(daily, told).map(({ from, to }) => [from, to])).toEqual([
      [0, 4],
      [4, 6],
      [6, 10],
    ]);
    expect(spans.map(({ from, to }) => [from, to])).toEqual(
      cycleRows(daily, told).map(({ from, to }) => [from, to]),
    );
  });

  it('begin on the day of a fall that no cleaning explains', () => {
    const cycles = [
      { start: null, startDay: 100 },
      { start: null, startDay: 105 },
    ];
    expect(cycleRows(daily, cycles).map(({ from, to }) => [from, to])).toEqual([
      [0, 5],
      [5, 10],
    ]);
  });
});
