import { describe, expect, it } from 'vitest';
import { splitCycles } from '@/lib/core/cycles/split-cycles';
import { makeDailyColumns } from '@/lib/core/series/daily-columns';
import { DAY_MS } from '../../support/forward-readings';

const FIRST = 20_000;
/** A record of days from FIRST on, each with a figure of readings from 01:00 to 23:00. */
function record(days: number) {
  const daily = makeDailyColumns(days);
  for (let row = 0; row < days; row++) {
    daily.day[row] = FIRST + row;
    daily.firstAccepted[row] = (FIRST + row) * DAY_MS + 3_600_000;
    daily.lastAccepted[row] = (FIRST + row) * DAY_MS + 23 * 3_600_000;
  }
  return daily;
}
const cleaning = (day: number, hour: number) => ({
  at: (FIRST + day) * DAY_MS + hour * 3_600_000,
  localDay: FIRST + day,
});

describe('cycles', () => {
  it('without a recorded cleaning are one, whose beginning is not known', () => {
    expect(splitCycles(record(10), [])).toEqual([
      { start: null, end: null, startDay: FIRST, endDay: FIRST + 9, from: 0, to: 10 },
    ]);
  });

  it('run from one recorded cleaning to the next', () => {
    const cleanings = [cleaning(3, 0), cleaning(7, 12)];
    const cycles = splitCycles(record(10), cleanings);
    expect(cycles.map(({ from, to }) => [from, to])).toEqual([
      [0, 3],
      [3, 8],
      [8, 10],
    ]);
    expect(cycles.map(({ start, end }) => [start, end])).toEqual([
      [null, cleanings[0]!.at],
      [cleanings[0]!.at, cleanings[1]!.at],
      [cleanings[1]!.at, null],
    ]);
    expect(cycles.map(({ startDay, endDay }) => [startDay - FIRST, endDay - FIRST])).toEqual([
      [0, 3],
      [3, 7],
      [7, 9],
    ]);
  });

  it('a day whose figure is of readings before the cleaning belongs to the cycle that ended', () => {
    const daily = record(10);
    daily.firstAccepted[7] = cleaning(7, 13).at;
    expect(splitCycles(daily, [cleaning(7, 12)]).map(({ from, to }) => [from, to])).toEqual([
      [0, 7],
      [7, 10],
    ]);
  });

  it('the last cleaning before the record begins its first cycle; earlier ones say nothing', () => {
    const cycles = splitCycles(record(10), [cleaning(-300, 8), cleaning(-20, 8), cleaning(4, 0)]);
    expect(cycles.map(({ startDay }) => startDay - FIRST)).toEqual([-20, 4]);
  });

  it('a cleaning after the last figure begins a cycle without figures', () => {
    const cycles = splitCycles(record(10), [cleaning(12, 8)]);
    expect(cycles.at(-1)).toMatchObject({ startDay: FIRST + 12, endDay: FIRST + 12, from: 10, to: 10 });
  });

  it('a cleaning across a gap in the record takes the next day with readings', () => {
    const daily = record(10);
    for (let row = 5; row < 10; row++) daily.day[row]! += 30;
    expect(splitCycles(daily, [cleaning(20, 8)]).map(({ from, to }) => [from, to])).toEqual([
      [0, 5],
      [5, 10],
    ]);
  });

  it('are none without figures and cleanings, and one per last cleaning without figures', () => {
    expect(splitCycles(record(0), [])).toEqual([]);
    expect(splitCycles(record(0), [cleaning(1, 8), cleaning(2, 8)])).toMatchObject([
      { startDay: FIRST + 2, from: 0, to: 0 },
    ]);
  });
});
