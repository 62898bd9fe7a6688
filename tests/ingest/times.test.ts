import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTime } from '@/lib/ingest/read-time';

const SEED = 20_261_125;

function read(text: string) {
  return readTime(text, null);
}

describe('times as ISO 8601 writes them', () => {
  it.each([
    ['2026-11-25T08:30:15Z', '2026-11-25T08:30:15.000Z'],
    ['2026-11-25t08:30:15z', '2026-11-25T08:30:15.000Z'],
    ['2026-11-25 08:30:15Z', '2026-11-25T08:30:15.000Z'],
    ['2026-11-25T08:30Z', '2026-11-25T08:30:00.000Z'],
    ['2026-11-25T08:30+01:00', '2026-11-25T07:30:00.000Z'],
    ['2026-11-25T08:30:15-0330', '2026-11-25T12:00:15.000Z'],
    ['2026-11-25T08:30:15+05', '2026-11-25T03:30:15.000Z'],
    ['2026-11-25T08:30:15-00:00', '2026-11-25T08:30:15.000Z'],
    ['2026-11-25T08:30:15.5Z', '2026-11-25T08:30:15.500Z'],
    ['2026-11-25T08:30:15,25Z', '2026-11-25T08:30:15.250Z'],
    ['2026-11-25T08:30:15.9999999Z', '2026-11-25T08:30:15.999Z'],
    ['2026-12-31T24:00:00Z', '2027-01-01T00:00:00.000Z'],
    ['2026-12-31T24:00Z', '2027-01-01T00:00:00.000Z'],
    ['2024-02-29T00:00Z', '2024-02-29T00:00:00.000Z'],
    ['2000-02-29T00:00Z', '2000-02-29T00:00:00.000Z'],
    ['0000-02-29T00:00Z', '0000-02-29T00:00:00.000Z'],
    ['1969-12-31T23:59:59.999Z', '1969-12-31T23:59:59.999Z'],
    ['9999-12-31T23:59:59Z', '9999-12-31T23:59:59.000Z'],
  ])('%s is read', (text, expected) => {
    const time = read(text);
    expect(new Date(time as number).toISOString()).toBe(expected);
  });

  it.each([
    '2026-02-29T00:00Z',
    '1900-02-29T00:00Z',
    '2026-04-31T00:00Z',
    '2026-00-10T00:00Z',
    '2026-13-10T00:00Z',
    '2026-01-00T00:00Z',
    '2026-01-32T00:00Z',
    '2026-01-31T24:00:01Z',
    '2026-01-31T24:01Z',
    '2026-01-31T24:00:00.5Z',
    '2026-01-31T25:00Z',
    '2026-01-31T10:60Z',
    '2026-01-31T10:00:60Z',
    '2026-01-31T10:00:0Z',
    '2026-01-31T10:00:00.Z',
    '2026-01-31T10:00:00+24:00',
    '2026-01-31T10:00:00+01:60',
    '2026-01-31T10:00:00+1',
    '2026-01-31T10:00:00+01:',
    '2026-01-31T10:00:00+01-00',
    '2026-01-31T10:00:00 +01:00x',
    '2026-01-31T10:00:00ZZ',
    '2026-01-31T10:00:00[Europe/Lisbon]',
    '2026-01-31T10',
    '2026-01-31',
    '2026-01-31T10:0Z',
    '2026-1-31T10:00:00Z',
    '2026/01/31T10:00:00Z',
    '20260131T100000Z',
    '+002026-01-31T10:00Z',
    '31.01.2026 10:00:00',
    '01/31/2026 10:00 AM',
    '46053.416667',
    '1769853600000',
    '٢٠٢٦-01-31T10:00Z',
    'yesterday at ten',
    '',
  ])('"%s" is not read', (text) => {
    expect(read(text)).toBe('time-not-readable');
  });

  it('a time without offset and zone says so', () => {
    for (const text of [
      '2026-01-31T10:00',
      '2026-01-31 10:00:00',
      '2026-01-31T10:00:00.5',
      '2026-01-31T24:00',
    ]) {
      expect(read(text)).toBe('time-without-zone');
    }
  });

  it(`every instant of the years 1 to 9999 written by the platform is read back (seed ${SEED})`, () => {
    const first = Date.parse('0001-01-01T00:00:00Z');
    const last = Date.parse('9999-12-31T23:59:59.999Z');
    fc.assert(
      fc.property(
        fc.integer({ min: first, max: last }),
        fc.integer({ min: -1_439, max: 1_439 }),
        (time, minutes) => {
          expect(read(new Date(time).toISOString())).toBe(time);
          const size = Math.abs(minutes);
          const offset = `${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
          const local = time + minutes * 60_000;
          if (local < first || local > last) return;
          expect(read(new Date(local).toISOString().replace('Z', offset))).toBe(time);
        },
      ),
      { seed: SEED, numRuns: 20_000 },
    );
  });

  it(`every day of 400 years exists exactly where the platform says so`, () => {
    for (let year = 1800; year < 2200; year++) {
      for (let month = 1; month <= 12; month++) {
        for (let day = 28; day <= 31; day++) {
          const date = `${year}-${two(month)}-${two(day)}`;
          const exists = new Date(Date.UTC(year, month - 1, day)).getUTCMonth() === month - 1;
          expect(read(`${date}T00:00Z`), date).toBe(
            exists ? Date.UTC(year, month - 1, day) : 'time-not-readable',
          );
        }
      }
    }
  });
});

function two(number: number): string {
  return String(number).padStart(2, '0');
}
