import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TimeFormat } from '@/lib/contract/time-format';
import type { ReadingOptions } from '@/lib/ingest/reading-format';
import { readFile } from './read-file';

const SEED = 20_261_025;
const FILES = 10;
const ROWS = 40;
const MS_PER_DAY = 86_400_000;
const ZONES = ['Europe/Lisbon', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kolkata', 'UTC'];

/** How a platform that knows nothing of this reader writes an instant of a zone. */
type Writer = {
  name: string;
  format: TimeFormat | null;
  step: number;
  write(at: number, zone: string): string;
};

function localeWriter(locale: string, options: Intl.DateTimeFormatOptions): Writer['write'] {
  const made = new Map<string, Intl.DateTimeFormat>();
  return (at, timeZone) => {
    const known = made.get(timeZone) ?? new Intl.DateTimeFormat(locale, { ...options, timeZone });
    made.set(timeZone, known);
    return known.format(at);
  };
}

const DATE = { year: 'numeric', month: '2-digit', day: '2-digit' } as const;
const MINUTES = { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' } as const;
const SECONDS = { ...MINUTES, second: '2-digit' } as const;
const german = localeWriter('de-DE', { ...DATE, ...SECONDS });
const swedish = localeWriter('sv-SE', { ...DATE, ...SECONDS });
const part = (options: Intl.DateTimeFormatOptions) => localeWriter('en-GB', options);
const [day, month, year2] = [part({ day: '2-digit' }), part({ month: 'short' }), part({ year: '2-digit' })];
const time = part(SECONDS);

const WRITERS: Writer[] = [
  { name: '25.10.2026, 02:30:15', format: null, step: 1000, write: german },
  {
    name: '25.10.2026 02:30',
    format: null,
    step: 60_000,
    write: (at, zone) => german(at, zone).replace(',', '').slice(0, 16),
  },
  {
    name: '25.10.2026 02:30:15,250',
    format: null,
    step: 1,
    write: (at, zone) => `${german(at, zone)},${String(at % 1000).padStart(3, '0')}`,
  },
  {
    name: '25/10/2026, 02:30:15',
    format: 'day-first',
    step: 1000,
    write: localeWriter('en-GB', { ...DATE, ...SECONDS }),
  },
  {
    name: '10/25/2026, 2:30:15 AM',
    format: 'month-first',
    step: 1000,
    write: localeWriter('en-US', {
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
      hour: 'numeric',
      minute: '2-digit',
      second: '2-digit',
      hour12: true,
    }),
  },
  {
    name: '2026/10/25 02:30:15',
    format: null,
    step: 1000,
    write: (at, zone) => swedish(at, zone).replaceAll('-', '/'),
  },
  {
    name: '25-Oct-26 02:30:15',
    format: null,
    step: 1000,
    write: (at, zone) => `${day(at, zone)}-${month(at, zone)}-${year2(at, zone)} ${time(at, zone)}`,
  },
  {
    name: '25 October 2026 02:30:15',
    format: null,
    step: 1000,
    write: (at, zone) =>
      `${part({ day: 'numeric', month: 'long', year: 'numeric' })(at, zone)} ${time(at, zone)}`,
  },
  ...['de', 'fr', 'es', 'pt', 'it'].map((language): Writer => {
    const named = localeWriter(language, { month: 'short' });
    return {
      name: `the months of ${language}`,
      format: null,
      step: 1000,
      write: (at, zone) =>
        `${day(at, zone)} ${named(at, zone)} ${part({ year: 'numeric' })(at, zone)} ${time(at, zone)}`,
    };
  }),
  { name: 'seconds since 1970', format: 'epoch-seconds', step: 1, write: (at) => String(at / 1000) },
  { name: 'milliseconds since 1970', format: 'epoch-milliseconds', step: 1, write: (at) => String(at) },
  {
    name: 'days of a spreadsheet',
    format: 'excel-serial',
    step: 1000,
    write: (at, zone) => ((wallOf(at, zone) - Date.UTC(1899, 11, 30)) / MS_PER_DAY).toFixed(10),
  },
];

/** Local time of an instant as if it were UTC [ms]. */
function wallOf(at: number, zone: string): number {
  return Date.parse(`${swedish(at, zone).replace(' ', 'T')}Z`) + (((at % 1000) + 1000) % 1000);
}

/** All instants with the local time of one, found by trying every offset there is: 1, or 2 where it comes twice. */
function instantsLike(at: number, zone: string): number[] {
  const wall = wallOf(at, zone);
  const quarters = Array.from({ length: 4 * 27 }, (_, i) => wall - (i - 4 * 13) * 900_000);
  return quarters.filter((instant) => wallOf(instant, zone) === wall);
}

/** Instants of 2000 to 2068, every fourth within a day of a change of European or American clocks. */
const instant = fc.oneof(
  { weight: 3, arbitrary: fc.integer({ min: Date.UTC(2000, 0, 1), max: Date.UTC(2068, 0, 1) }) },
  {
    weight: 1,
    arbitrary: fc
      .tuple(
        fc.constantFrom(Date.UTC(2026, 9, 25), Date.UTC(2026, 10, 1), Date.UTC(2026, 3, 4)),
        fc.integer({ min: -7_200_000, max: 86_400_000 }),
      )
      .map(([from, behind]) => from + behind),
  },
);

function fileOf(times: string[]): string {
  return ['tag;time;hot_in[Cel]', ...times.map((written, i) => `E-101;${written};${i}`), ''].join('\n');
}

describe.each(WRITERS)('times as $name', ({ format, step, write }) => {
  it(`are read in every zone as the platform wrote them, those that occur twice set aside (seed ${SEED})`, {
    timeout: 120_000,
  }, async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...ZONES),
        fc.array(instant, { minLength: ROWS, maxLength: ROWS }),
        async (zone, instants) => {
          const at = instants.map((time) => Math.floor(time / step) * step);
          const mapping = format === null ? null : { sensors: {}, timeFormat: format };
          const file = await readFile(fileOf(at.map((time) => write(time, zone))), {
            mapping,
            timeZone: zone,
          });
          const isSure = (time: number) =>
            format?.startsWith('epoch') || instantsLike(time, zone).length === 1;
          expect(file.rows.map((row) => Date.parse(row.time))).toEqual(at.filter(isSure));
          expect(file.setAside.map(({ line, reason }) => [line, reason])).toEqual(
            at.flatMap((time, i) => (isSure(time) ? [] : [[i + 2, 'time-occurs-twice']])),
          );
        },
      ),
      { seed: SEED, numRuns: FILES },
    );
  });
});

async function timesOf(rows: string, options: Partial<ReadingOptions> = {}) {
  const { rows: read, setAside } = await readFile(rows, { timeZone: 'UTC', ...options });
  return { read: read.map((row) => row.time.slice(0, 19)), aside: setAside };
}

describe('single times', () => {
  it.each([
    ['25.10.2026 12:30 AM', '2026-10-25T00:30:00'],
    ['25.10.2026 12:30 PM', '2026-10-25T12:30:00'],
    ['25.10.2026 1:30 p.m.', '2026-10-25T13:30:00'],
    ['25.10.2026 02:30 +01:00', '2026-10-25T01:30:00'],
    ['25.10.2026 02:30:15.5-0330', '2026-10-25T06:00:15'],
    ['25.10.2026 02:30Z', '2026-10-25T02:30:00'],
    ['25.10.2026 02:30 UTC', '2026-10-25T02:30:00'],
    ['25.10.2026 24:00', '2026-10-26T00:00:00'],
    ['5.1.26 2:03', '2026-01-05T02:03:00'],
    ['01.01.69 00:00', '2069-01-01T00:00:00'],
    ['01.01.70 00:00', '1970-01-01T00:00:00'],
    ['29-Feb-2024 23:59:59', '2024-02-29T23:59:59'],
    ['25-OKT-26 02:30', '2026-10-25T02:30:00'],
    ['3. Mär. 2026 02:30', '2026-03-03T02:30:00'],
    ['3/Aug/2026 02:30', '2026-08-03T02:30:00'],
    ['2026/1/5 2:03', '2026-01-05T02:03:00'],
  ])('%s is read', async (written, expected) => {
    expect(await timesOf(fileOf([written]))).toEqual({ read: [expected], aside: [] });
  });

  it.each([
    ['25.10.2026 02:30 CET', 'abbreviations of zones are not unique'],
    ['25.10.2026 02:30 CEST', 'write an offset such as +01:00'],
    ['25/10/26 02:30', 'has a year of two digits'],
    ['25-Foo-2026 02:30', 'has "Foo" where its month should be'],
    ['25.10.2026', 'has no time of day'],
    ['25.10.2026 13:30 PM', 'is no time as the others'],
    ['25.10.2026 00:30 AM', 'is no time as the others'],
    ['25.10.2026 24:01', 'is no time as the others'],
    ['25.10.2026 2:3', 'is no time as the others'],
    ['25.10/2026 02:30', 'is no time as the others'],
    ['31.04.2026 02:30', 'is no time as the others'],
    ['25.10.2026 02:30:61', 'is no time as the others'],
    ['25.10.2026 02:30 +24:00', 'is no time as the others'],
    ['25.10.2026 02:30 UTC+1', 'is no time as the others'],
    ['46320.104', 'is a plain number'],
  ])('%s is set aside among others, saying why', async (written, message) => {
    const { read, aside } = await timesOf(fileOf(['24.10.2026 02:30', written, '26.10.2026 02:30']));
    expect(read).toHaveLength(2);
    expect(aside).toMatchObject([{ line: 3, reason: 'time-not-readable', field: 'time' }]);
    expect(aside[0]!.message).toContain(message);
  });

  it('that begin like the one before are not taken for its date', async () => {
    const { read } = await timesOf(
      fileOf(['1.1.20 02:30', '1.1.2026 02:30', '1.1.20 03:30', '11.1.20 03:30']),
    );
    expect(read.map((written) => written.slice(0, 13))).toEqual([
      '2020-01-01T02',
      '2026-01-01T02',
      '2020-01-01T03',
      '2020-01-11T03',
    ]);
  });

  it('of a spring hour that never was is set aside', async () => {
    const { aside } = await timesOf(fileOf(['29.03.2026 01:30', '29.03.2026 03:30']), {
      timeZone: 'Europe/Lisbon',
    });
    expect(aside).toMatchObject([{ line: 2, reason: 'time-does-not-exist' }]);
  });

  it('that occurs twice is set aside with both offsets, in words and in days of a spreadsheet', async () => {
    const options = { timeZone: 'Europe/Lisbon' };
    const { aside } = await timesOf(fileOf(['25.10.2026 01:30', '26.10.2026 01:30']), options);
    expect(aside).toMatchObject([{ line: 2, reason: 'time-occurs-twice' }]);
    expect(aside[0]!.message).toContain('+01:00 or +00:00');
    const serial = { ...options, mapping: { sensors: {}, timeFormat: 'excel-serial' as const } };
    const counted = await timesOf(fileOf(['46320.0625', '46321,0625']), serial);
    expect(counted.read).toEqual(['2026-10-26T01:30:00']);
    expect(counted.aside[0]!.message).toContain('+01:00 or +00:00');
  });
});
