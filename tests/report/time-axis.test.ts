import { describe, expect, it } from 'vitest';
import type { OutageBand } from '@/lib/report/fleet-view';
import { placeOutageNames } from '@/lib/report/outage-names';
import { addMonths, monthTicks, shareOf } from '@/lib/report/time-axis';
import { dayNumber, isoDay } from '@/lib/time/calendar-day';

describe('the time axis', () => {
  it.each([
    ['2026-01-31', 1, '2026-02-28'],
    ['2028-01-31', 1, '2028-02-29'],
    ['2026-11-25', -12, '2025-11-25'],
    ['2026-11-30', 3, '2027-02-28'],
    ['2026-12-15', 18, '2028-06-15'],
  ])('%s and %i months is %s', (from, months, to) => {
    expect(isoDay(addMonths(dayNumber(from), months))).toBe(to);
  });

  it('names each month up to two years, every third beyond, and January by its year', () => {
    const span = (from: string, to: string) => ({ from: dayNumber(from), to: dayNumber(to) });
    const labels = (from: string, to: string) => monthTicks(span(from, to)).map((tick) => tick.label);
    expect(labels('2026-11-25', '2027-03-02')).toEqual(['Dec', '2027', 'Feb', 'Mar']);
    expect(labels('2026-01-15', '2029-01-15').slice(0, 6)).toEqual(['', '', 'Apr', '', '', 'Jul']);
  });

  it('has its ends at 0 and 1', () => {
    expect(shareOf({ from: 100, to: 200 }, 100)).toBe(0);
    expect(shareOf({ from: 100, to: 200 }, 200)).toBe(1);
  });
});

describe('names of outages', () => {
  const band = (name: string, from: number, site = 'Quay'): OutageBand => ({
    site,
    name,
    from,
    to: from + 0.02,
    words: name,
  });

  it('stand at the left edge of their bands, the same stop of two sites once', () => {
    const names = placeOutageNames([band('Stop', 0.1), band('Stop', 0.101, 'Hill')], 0.5);
    expect(names).toEqual([{ at: 0.1, lane: 0, text: 'Stop', endsThere: false }]);
  });

  it('go to another lane rather than over one another', () => {
    const lanes = placeOutageNames([band('A long name of a stop', 0.1), band('Another name', 0.15)], 0.8).map(
      (name) => name.lane,
    );
    expect(lanes).toEqual([0, 1]);
  });

  it('end at their band where they would cross the line of today or leave the axis', () => {
    const [crossing, leaving] = placeOutageNames(
      [band('Summer stop', 0.45), band('Boiler inspection', 0.97)],
      0.5,
    );
    expect(crossing).toMatchObject({ endsThere: true, at: expect.closeTo(0.47, 9), lane: 1 });
    expect(leaving).toMatchObject({ endsThere: true, at: expect.closeTo(0.99, 9) });
  });
});
