import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { dayNumber, isoDay } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import { isoInZone, localDays, startOfLocalDay } from '@/lib/time/local-day';

const HOUR = 3_600_000;

/** Readings per local day, hourly from one UTC instant. */
function hoursPerDay(from: string, hours: number, timeZone: string): Record<string, number> {
  const time = Float64Array.from({ length: hours }, (_, i) => Date.parse(from) + i * HOUR);
  const counts: Record<string, number> = {};
  for (const day of localDays(time, timeZone)) counts[isoDay(day)] = (counts[isoDay(day)] ?? 0) + 1;
  return counts;
}

describe('localDays', () => {
  it('gives the day the clocks go forward 23 hours and the day they go back 25', () => {
    // Daylight saving in 2026 by the IANA time zone database: Lisbon 29 March and 25 October.
    expect(hoursPerDay('2026-03-28T00:00:00Z', 71, 'Europe/Lisbon')).toEqual({
      '2026-03-28': 24,
      '2026-03-29': 23,
      '2026-03-30': 24,
    });
    expect(hoursPerDay('2026-10-24T23:00:00Z', 25, 'Europe/Lisbon')).toEqual({ '2026-10-25': 25 });
  });

  it('follows zones west of Greenwich, with half hours, and with a half-hour shift', () => {
    expect(isoDay(localDay(Date.parse('2026-07-01T03:00:00Z'), 'America/New_York'))).toBe('2026-06-30');
    expect(isoDay(localDay(Date.parse('2026-07-01T18:30:00Z'), 'Asia/Kolkata'))).toBe('2026-07-02');
    // Lord Howe: +11:00 in summer, +10:30 in winter, back on 5 April 2026.
    expect(isoDay(localDay(Date.parse('2026-04-04T13:00:00Z'), 'Australia/Lord_Howe'))).toBe('2026-04-05');
    expect(isoDay(localDay(Date.parse('2026-04-05T13:29:00Z'), 'Australia/Lord_Howe'))).toBe('2026-04-05');
    expect(isoDay(localDay(Date.parse('2026-04-05T13:30:00Z'), 'Australia/Lord_Howe'))).toBe('2026-04-06');
  });
});

describe('a local day', () => {
  it('begins at its own midnight', () => {
    expect(new Date(startOfLocalDay(dayNumber('2026-07-01'), 'Europe/Lisbon')).toISOString()).toBe(
      '2026-06-30T23:00:00.000Z',
    );
  });

  it('goes to its name and back', () => {
    for (const day of ['1969-12-31', '1970-01-01', '2024-02-29', '2026-11-25']) {
      expect(isoDay(dayNumber(day))).toBe(day);
    }
  });

  it('writes an instant with the offset of the zone', () => {
    expect(isoInZone(Date.parse('2026-11-25T08:00:00Z'), 'Europe/Helsinki')).toBe(
      '2026-11-25T10:00:00+02:00',
    );
  });

  it('writes it as Temporal does, whatever the zone, the year and the part of the second', () => {
    const zones = [
      'UTC',
      'Europe/Lisbon',
      'America/St_Johns',
      'Asia/Kathmandu',
      'Australia/Lord_Howe',
      'Pacific/Apia',
    ];
    for (const timeZone of zones) {
      for (let n = 0; n < 400; n++) {
        const instant = Date.parse('1969-06-01T00:00:00Z') + n * 60 * 86_400_000 + n * 3_723_457;
        const theirs = Temporal.Instant.fromEpochMilliseconds(instant);
        expect(isoInZone(instant, timeZone)).toBe(theirs.toString({ timeZone, smallestUnit: 'second' }));
      }
    }
  });
});
