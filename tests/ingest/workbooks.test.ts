import { gunzipSync, gzipSync, inflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { previewReadings } from '@/lib/ingest/preview-readings';
import { OPTIONS, readFile, seeded, streamOf } from './read-file';
import { type SheetCell, workbookOf } from './sheet-file';
import { numberCell, textCell, workbookParts, zipFile } from './zip-file';

/** A time of a sheet's own clock. */
const at = (text: string) => new Date(`${text}Z`);
const ZONE = 'Europe/Lisbon';
const HEADER: SheetCell[] = ['tag', 'time', 'hot_in[Cel]', 'hot_out[degF]', 'cold_flow[m3/h]'];

describe('readings in a workbook', () => {
  it('are read from a canonical sheet, dates by the clock of the named zone, row numbers being those of the sheet', async () => {
    const book = await workbookOf({
      Data: [
        HEADER,
        ['E-101', at('2026-07-01T10:00:00'), 80.4, 140, 36],
        [],
        ['E-102', at('2026-07-01T10:05:00'), 81, null, null],
        ['E-101', '2026-07-01T12:00+02:00', -3.25, null, 1e-7],
      ],
    });
    const { rows, setAside, read } = await readFile(book, { timeZone: ZONE });
    expect(setAside).toEqual([]);
    expect(read).toBe(3);
    expect(rows).toEqual([
      {
        tag: 'E-101',
        time: '2026-07-01T09:00:00.000Z',
        line: 2,
        hotIn: 80.4,
        hotOut: expect.closeTo(60, 10),
        coldFlow: expect.closeTo(0.01, 12),
      },
      { tag: 'E-102', time: '2026-07-01T09:05:00.000Z', line: 4, hotIn: 81 },
      {
        tag: 'E-101',
        time: '2026-07-01T10:00:00.000Z',
        line: 5,
        hotIn: -3.25,
        coldFlow: expect.closeTo(2.7778e-11, 14),
      },
    ]);
  });

  it('say how the file is written, and are not read at a zone that nobody named', async () => {
    const book = await workbookOf({ Data: [HEADER, ['E-101', at('2026-07-01T10:00:00'), 80, 140, 36]] });
    const { format, setAside, rows } = await previewReadings(streamOf(gzipSync(book)), OPTIONS);
    expect(format).toMatchObject({
      kind: 'canonical',
      container: 'workbook',
      sheet: 'Data',
      headerRows: [{ line: 1, role: 'names' }],
      compressed: true,
    });
    expect(rows).toMatchObject([{ line: 2, cells: ['E-101', '2026-07-01 10:00:00', '80', '140', '36'] }]);
    expect(setAside).toMatchObject([{ line: 2, reason: 'time-without-zone' }]);
  });

  it('are found behind a cover sheet, below titles, with descriptions and units in rows of their own', async () => {
    const mapping = {
      sensors: {
        'TI-1001': { tag: 'E-101', sensor: 'hotIn', unit: '°C' },
        'FI-1003': { tag: 'E-102', sensor: 'coldFlow', unit: 't/h' },
      },
    } as const;
    const book = await workbookOf({
      Cover: [['Heat exchangers'], ['Printed', at('2026-07-02T08:00:00')]],
      Notes: [],
      Export: [
        ['Unit 100, one hour'],
        [],
        ['Tag', 'TI-1001', 'FI-1003'],
        ['Description', 'Inlet, hot', 'Flow, cold'],
        ['Units', '°C', 't/h'],
        [at('2026-07-01T10:00:00'), 80.5, 'Bad'],
        [at('2026-07-01T11:00:00'), 'No Data', 3.6],
        [at('2026-07-01T12:00:00'), '12,5 °C', 7.2],
      ],
    });
    const { format } = await previewReadings(streamOf(book), { ...OPTIONS, mapping });
    expect(format.sheet).toBe('Export');
    expect(format.headerRows.map(({ line, role }) => `${line} ${role}`)).toEqual([
      '1 title',
      '3 names',
      '4 description',
      '5 units',
    ]);
    const { rows, setAside } = await readFile(book, { mapping, timeZone: ZONE });
    expect(rows.map(({ line, tag, hotIn, coldFlow }) => [line, tag, hotIn ?? coldFlow])).toEqual([
      [6, 'E-101', 80.5],
      [7, 'E-102', 1],
      [8, 'E-102', 2],
    ]);
    expect(setAside).toMatchObject([{ line: 8, reason: 'value-not-a-number', field: 'TI-1001' }]);
  });

  it('are read from a long sheet', async () => {
    const book = await workbookOf({
      Long: [
        ['time', 'sensor', 'value', 'unit'],
        [at('2026-07-01T10:00:00'), 'E-101.hot_in', 80, 'Cel'],
        [at('2026-07-01T10:00:00'), 'E-103.cold_flow', 3.6, 't/h'],
        [at('2026-07-01T10:00:00'), 'E-109.cold_flow', 3.6, 't/h'],
      ],
    });
    const { rows, setAside } = await readFile(book, { timeZone: 'UTC' });
    expect(rows).toMatchObject([
      { line: 2, tag: 'E-101', hotIn: 80 },
      { line: 3, tag: 'E-103', coldFlow: 1 },
    ]);
    expect(setAside).toMatchObject([{ line: 4, reason: 'unknown-tag' }]);
  });

  it('may be texts with a decimal comma beside numbers, which have none', async () => {
    const rows = [
      ['E-101', '2026-07-01T10:00Z', '80,5', 140, 36],
      ['E-101', '2026-07-01T11:00Z', 81.5, '140,25', 36],
    ];
    const book = await workbookOf({ Data: [HEADER, ...rows] });
    const { rows: read, setAside } = await readFile(book);
    expect(setAside).toEqual([]);
    expect(read.map(({ hotIn }) => hotIn)).toEqual([80.5, 81.5]);
    // Every text could be a thousand: nobody knows, and the rows are set aside.
    const doubtful = await workbookOf({ Data: [HEADER, ['E-101', '2026-07-01T10:00Z', '1,234', 140, 36]] });
    expect((await readFile(doubtful)).setAside).toMatchObject([{ reason: 'value-not-a-number' }]);
  });

  it('are set aside where a cell holds a date, true, a time of day or a number in the place of another', async () => {
    const cells: [SheetCell, SheetCell, string][] = [
      [at('2026-07-01T10:00:00'), at('2026-07-01T10:00:00'), 'value-not-a-number'],
      [at('2026-07-01T10:00:00'), true, 'value-not-a-number'],
      [at('1899-12-30T10:00:00'), 80, 'time-not-readable'],
      [46_204.5, 80, 'time-not-readable'],
    ];
    const book = await workbookOf({
      Data: [HEADER, ...cells.map(([time, value]) => ['E-101', time, value, null, null])],
    });
    const { rows, setAside } = await readFile(book, { timeZone: ZONE });
    expect(rows).toEqual([]);
    expect(setAside.map(({ line, reason }) => [line, reason])).toEqual(
      cells.map((cell, i) => [i + 2, cell[2]]),
    );
  });

  it('refuse a header as a text file does, naming the sheet and its row', async () => {
    const book = await workbookOf({ 'Week 1': [[], ['tag', 'time', 'hot_in'], ['E-101', 'x', 80]] });
    await expect(readFile(book)).rejects.toMatchObject({
      code: 'invalid-input',
      message: expect.stringContaining('Sheet "Week 1", row 2, "hot_in": has no unit'),
      faults: [{ field: 'hot_in', line: 2 }],
    });
    await expect(readFile(await workbookOf({ A: [], B: [['only a word']] }))).rejects.toMatchObject({
      code: 'invalid-input',
    });
    await expect(readFile(await workbookOf({ A: [], B: [] }))).rejects.toMatchObject({
      code: 'not-readable',
      message: expect.stringContaining('no table of readings'),
    });
  });
});

describe('dates of a sheet', () => {
  it('agree with the days since 1970 that the file itself states, for 2000 moments of 140 years', async () => {
    const random = seeded(7);
    const moments = Array.from(
      { length: 2_000 },
      () =>
        // Whole seconds: what a logger writes and a sheet shows.
        Math.floor(random() * 4_400_000_000 - 2_200_000_000 + 86_400 * 365 * 2) * 1000,
    );
    const book = await workbookOf({
      Data: [['tag', 'time', 'hot_in[Cel]'], ...moments.map((ms, i) => ['E-101', new Date(ms), i])],
    });
    const serials = serialsOf(book);
    expect(serials).toHaveLength(moments.length);
    const { rows, setAside } = await readFile(book, { timeZone: 'UTC' });
    expect(setAside).toEqual([]);
    for (const { time, hotIn: i } of rows) {
      // Day 25569 of a sheet is 1 January 1970.
      const stated = (serials[i!]! - 25_569) * 86_400_000;
      expect(Math.abs(Date.parse(time) - stated)).toBeLessThan(1);
      expect(Date.parse(time)).toBe(moments[i!]);
    }
  });

  it.each<[string, string, boolean]>([
    ['46053.4375', '2026-01-31T10:30:00.000Z', false],
    ['46053.437500000001', '2026-01-31T10:30:00.000Z', false],
    // A fraction of a day with eight decimals, as some programs write it, is 10:05 all the same.
    ['46053.42013889', '2026-01-31T10:05:00.000Z', false],
    ['46053.00000115741', '2026-01-31T00:00:00.100Z', false],
    ['44591.4375', '2026-01-31T10:30:00.000Z', true],
    ['61', '1900-03-01T00:00:00.000Z', false],
  ])('%s is %s', async (serial, expected, uses1904) => {
    const rows = `<row r="1">${textCell('A1', 'tag')}${textCell('B1', 'time')}${textCell('C1', 'hot_in[Cel]')}</row><row r="2">${textCell('A2', 'E-101')}${numberCell('B2', serial, 1)}${numberCell('C2', 80)}</row>`;
    const { rows: read } = await readFile(zipFile(workbookParts([rows], { uses1904 })), { timeZone: 'UTC' });
    expect(read.map(({ time }) => time)).toEqual([expected]);
  });

  it('in the hour that the clock repeats or skips are each reported with their row', async () => {
    const times = [...hourOf('2026-10-25T00:50'), ...hourOf('2026-03-29T00:50')];
    const book = await workbookOf({
      Data: [['time', 'E-101.hot_in[Cel]'], ...times.map((time, i) => [time, i])],
    });
    const { rows, setAside } = await readFile(book, { timeZone: ZONE });
    const minutes = (reason: 'time-occurs-twice' | 'time-does-not-exist') =>
      setAside
        .filter((row) => row.reason === reason)
        .map(({ line }) => times[line - 2]!.toISOString().slice(11, 16));
    const hour = ['01:00', '01:10', '01:20', '01:30', '01:40', '01:50'];
    expect(minutes('time-occurs-twice')).toEqual(hour);
    expect(minutes('time-does-not-exist')).toEqual(hour);
    expect(setAside).toHaveLength(12);
    expect(rows).toHaveLength(times.length - 12);
    expect(setAside[0]!.message).toContain(
      'occurs twice in Europe/Lisbon; write it with its offset, +01:00 or +00:00',
    );
  });
});

/** Every ten minutes of the two hours from a local time on. */
function hourOf(begin: string): Date[] {
  return Array.from({ length: 12 }, (_, i) => new Date(Date.parse(`${begin}Z`) + i * 600_000));
}

/** The numbers in column B of the first sheet, taken from the file without the reader. */
function serialsOf(book: Buffer): number[] {
  const name = 'xl/worksheets/sheet1.xml';
  const entry = book.lastIndexOf(name) - 46;
  const begin = book.readUInt32LE(entry + 42);
  const head = begin + 30 + book.readUInt16LE(begin + 26) + book.readUInt16LE(begin + 28);
  const xml = inflateRawSync(book.subarray(head, head + book.readUInt32LE(entry + 20))).toString();
  return [...xml.matchAll(/<c r="B\d+" s="\d+"[^>]*><v>([^<]+)<\/v>/g)].map(([, value]) => Number(value));
}

describe('a sheet of many rows', () => {
  it('is read value by value as it was written, and again gzipped', { timeout: 120_000 }, async () => {
    const random = seeded(11);
    const values = Array.from({ length: 30_000 }, () => Math.round(random() * 1e6) / 1e4);
    const rows = values.map((value, i) => [
      new Date(Date.UTC(2026, 0, 1) + i * 60_000),
      value,
      value + 1,
      i % 7 === 0 ? 'Bad' : value / 3,
    ]);
    const book = await workbookOf({
      Data: [['time', 'E-101.hot_in[Cel]', 'E-102.hot_in[Cel]', 'E-103.hot_in[Cel]'], ...rows],
    });
    expect(gunzipSync(gzipSync(book)).equals(book)).toBe(true);
    const { rows: read, setAside } = await readFile(gzipSync(book), { timeZone: 'UTC' });
    expect(setAside).toEqual([]);
    const of = (tag: string) => read.filter((row) => row.tag === tag);
    expect(of('E-101').map(({ hotIn }) => hotIn)).toEqual(values);
    expect(of('E-102').map(({ hotIn }) => hotIn)).toEqual(values.map((value) => value + 1));
    expect(of('E-103').map(({ hotIn }) => hotIn)).toEqual(
      values.filter((_, i) => i % 7 !== 0).map((value) => value / 3),
    );
    expect(of('E-101').every(({ line }, i) => line === i + 2)).toBe(true);
  });
});
