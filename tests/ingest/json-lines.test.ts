import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { readingLineSchema } from '@/lib/contract/readings';
import { HOT_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';
import { previewReadings } from '@/lib/ingest/preview-readings';
import { readReadings } from '@/lib/ingest/read-readings';
import { OPTIONS, readFile, streamOf } from './read-file';

const TIME = '2026-01-31T10:00:00Z';
const lines = (...documents: unknown[]) =>
  documents
    .map((document) => (typeof document === 'string' ? document : JSON.stringify(document)))
    .join('\n');

const UNIT_LINE = {
  tag: 'E-101',
  time: TIME,
  hotIn: { value: 212, unit: '[degF]' },
  hotOut: null,
  hotFlow: { value: 36, unit: 'm3/h' },
  coldPressureDrop: { value: 12, unit: 'mbar' },
};
const SENSOR_LINE = { sensor: 'E-102.hot_in', time: TIME, value: 80, unit: 'Cel' };

describe('JSON lines', () => {
  it('hold the readings of a unit, or a value of a sensor, as the schema says', async () => {
    for (const line of [UNIT_LINE, SENSOR_LINE]) expect(readingLineSchema.safeParse(line).success).toBe(true);
    const { rows, bases, setAside, read } = await readFile(lines(UNIT_LINE, '', SENSOR_LINE));
    expect(setAside).toEqual([]);
    expect(read).toBe(2);
    expect(bases).toEqual([HOT_FLOW_IS_VOLUME, 0]);
    expect(rows).toEqual([
      {
        tag: 'E-101',
        time: '2026-01-31T10:00:00.000Z',
        line: 1,
        hotIn: expect.closeTo(100, 10),
        hotFlow: expect.closeTo(0.01, 12),
        coldPressureDrop: expect.closeTo(1200, 9),
      },
      { tag: 'E-102', time: '2026-01-31T10:00:00.000Z', line: 3, hotIn: 80 },
    ]);
  });

  it.each([
    ['gzipped', gzipSync(lines(UNIT_LINE))],
    ['with a byte-order mark', Buffer.from(`\ufeff${lines(UNIT_LINE)}\r\n`)],
    ['in UTF-16 without a mark', Buffer.from(lines(UNIT_LINE), 'utf16le')],
    ['below blank lines', Buffer.from(`\n  \n${lines(UNIT_LINE)}`)],
  ])('are found %s', async (_, bytes) => {
    const { format } = await previewReadings(streamOf(bytes), OPTIONS);
    expect(format).toMatchObject({ container: 'json-lines', kind: 'canonical', headerRows: [] });
    expect((await readFile(bytes)).rows).toMatchObject([{ tag: 'E-101', hotIn: expect.closeTo(100, 10) }]);
  });

  it('name a sensor by mapping, by tag and quantity, or by both beside each other', async () => {
    const mapping = {
      sensors: { 'TI-1': { tag: 'E-103', sensor: 'coldIn', unit: 'degF' }, 'TI-2': null },
    } as const;
    const file = lines(
      { sensor: 'TI-1', time: TIME, value: 32 },
      { sensor: 'TI-1', time: TIME, value: 20, unit: 'Cel' },
      { sensor: 'TI-2', time: TIME, value: 5 },
      { tag: 'E-101', sensor: 'hot_out', time: TIME, value: 60, unit: 'Cel' },
    );
    const { rows, setAside, read } = await readFile(file, { mapping });
    expect(setAside).toEqual([]);
    expect(read).toBe(4);
    expect(rows).toMatchObject([
      { tag: 'E-103', coldIn: expect.closeTo(0, 10) },
      { tag: 'E-103', coldIn: 20 },
      { tag: 'E-101', hotOut: 60 },
    ]);
  });

  it.each<[string, unknown, string, string | null, string]>([
    ['no JSON', '{"tag": "E-101", ', 'not-json', null, 'write one whole document per line'],
    ['a list', '[1, 2]', 'not-json', null, 'no JSON document'],
    ['a number', '80', 'not-json', null, 'no JSON document'],
    ['nesting without end', '['.repeat(100_000), 'not-json', null, 'no JSON document'],
    ['no tag', { time: TIME, hotIn: null }, 'unknown-tag', 'tag', 'there is no text "tag"'],
    ['another tag', { ...UNIT_LINE, tag: 'E-0101' }, 'unknown-tag', 'tag', 'did you mean "E-101"?'],
    ['no time', { tag: 'E-101' }, 'time-not-readable', 'time', 'there is no text "time"'],
    ['a number as time', { ...UNIT_LINE, time: 1 }, 'time-not-readable', 'time', 'there is no text "time"'],
    ['another time', { ...UNIT_LINE, time: 'now' }, 'time-not-readable', 'time', 'is no time as ISO 8601'],
    ['no zone', { ...UNIT_LINE, time: '2026-01-31T10:00' }, 'time-without-zone', 'time', 'has no offset'],
    [
      'a plain number',
      { ...UNIT_LINE, hotOut: 79.6 },
      'value-not-a-number',
      'hotOut',
      'is a number without its unit; write {"value": 79.6, "unit": "Cel"}',
    ],
    [
      'a number in quotes',
      { ...UNIT_LINE, hotOut: { value: '79,6', unit: 'Cel' } },
      'value-not-a-number',
      'hotOut',
      '"79,6" is a text',
    ],
    ['true', { ...UNIT_LINE, hotOut: true }, 'value-not-a-number', 'hotOut', 'true is no number'],
    [
      'a list as value',
      { ...UNIT_LINE, hotOut: [79.6] },
      'value-not-a-number',
      'hotOut',
      '[79.6] is no number',
    ],
    [
      'another unit',
      { ...UNIT_LINE, hotOut: { value: 1, unit: 'bar' } },
      'unknown-sensor',
      'hotOut',
      'is no unit of temperature',
    ],
    ['another key', { ...UNIT_LINE, hotInn: null }, 'unknown-sensor', 'hotInn', 'did you mean "hotIn"?'],
    ['the same key in two spellings', { ...UNIT_LINE, hot_in: null }, 'unknown-sensor', 'hot_in', 'keep one'],
    ['no value', { tag: 'E-101', time: TIME, hotIn: null }, 'no-values', null, 'has no value'],
    [
      'a number too large',
      `{"tag":"E-101","time":"${TIME}","hotIn":{"value":1e999,"unit":"Cel"}}`,
      'value-not-a-number',
      'hotIn',
      'too large',
    ],
    [
      'no unit',
      { sensor: 'E-101.hotIn', time: TIME, value: 80 },
      'value-not-a-number',
      'value',
      'write "unit": "Cel"',
    ],
    [
      'an unknown sensor',
      { sensor: 'TI-9', time: TIME, value: 80 },
      'unknown-sensor',
      'sensor',
      'add it to the mapping',
    ],
    [
      'a key too many',
      { ...SENSOR_LINE, quality: 'good' },
      'unknown-sensor',
      'quality',
      'can skip it with null',
    ],
    ['no value of a sensor', { ...SENSOR_LINE, value: null }, 'no-values', null, 'has no value'],
    [
      'the name of every object’s property',
      { ...SENSOR_LINE, sensor: 'constructor' },
      'unknown-sensor',
      'sensor',
      'is no known sensor',
    ],
    [
      'more than 1 MiB',
      JSON.stringify({ ...UNIT_LINE, note: 'x'.repeat(1_100_000) }),
      'line-too-long',
      null,
      'longer than 1 MiB',
    ],
  ])('with %s are set aside, and the lines around them are read', async (_, line, reason, field, message) => {
    const { rows, setAside } = await readFile(lines(SENSOR_LINE, line, SENSOR_LINE));
    expect(rows.map((row) => row.line)).toEqual([1, 3]);
    expect(rows.every((row) => row.hotIn === 80)).toBe(true);
    expect(setAside).toMatchObject([{ line: 2, reason, field }]);
    expect(setAside[0]!.message).toContain(message);
    // What a registered tag, a zone or a mapping decides is found out in the file; the schema refuses the rest.
    const isLeftToFile = ['no-values', 'unknown-tag', 'time-without-zone'].includes(reason);
    if (typeof line !== 'string' && !isLeftToFile && !('sensor' in (line as object))) {
      expect(readingLineSchema.safeParse(line).success).toBe(false);
    }
  });

  it('count status words as not measured, in the place of a value and of a quantity', async () => {
    const file = lines(
      { ...UNIT_LINE, hotIn: 'Bad', hotFlow: { value: 'No Data', unit: 'm3/h' } },
      { ...SENSOR_LINE, value: 'bad' },
    );
    for await (const chunk of readReadings(streamOf(file), OPTIONS)) {
      expect(chunk.statusCells).toEqual({
        total: 3,
        byWord: new Map([
          ['bad', 2],
          ['no data', 1],
        ]),
      });
      expect(chunk.length).toBe(1);
      expect(chunk.setAside).toMatchObject([{ line: 2, reason: 'no-values' }]);
    }
  });

  it('skip a key that the mapping skips', async () => {
    const { rows, setAside } = await readFile(lines({ ...UNIT_LINE, quality: 192 }), {
      mapping: { sensors: { quality: null } },
    });
    expect(setAside).toEqual([]);
    expect(rows).toHaveLength(1);
  });

  it('with local times are read in the named zone, and both hours of a fold are set aside', async () => {
    const file = lines(
      ...['2026-10-25T00:30', '2026-10-25T01:30', '2026-10-25T02:30', '2026-10-25T01:30+00:00'].map(
        (time) => ({
          ...SENSOR_LINE,
          time,
        }),
      ),
    );
    const { rows, setAside } = await readFile(file, { timeZone: 'Europe/Lisbon' });
    expect(rows.map(({ time }) => time)).toEqual([
      '2026-10-24T23:30:00.000Z',
      '2026-10-25T02:30:00.000Z',
      '2026-10-25T01:30:00.000Z',
    ]);
    expect(setAside).toMatchObject([{ line: 2, reason: 'time-occurs-twice' }]);
  });

  it('show a preview their keys as columns, with the first unit of each', async () => {
    const { format, rows } = await previewReadings(streamOf(lines(UNIT_LINE, UNIT_LINE)), OPTIONS);
    expect(format.columns.map(({ name, use, sensor, unit }) => [name, use, sensor, unit])).toEqual([
      ['tag', 'tag', null, null],
      ['time', 'time', null, null],
      ['hotIn', 'reading', 'hotIn', '[degF]'],
      ['hotOut', 'reading', 'hotOut', null],
      ['hotFlow', 'reading', 'hotFlow', 'm3/h'],
      ['coldPressureDrop', 'reading', 'coldPressureDrop', 'mbar'],
    ]);
    expect(rows[0]!.readings).toMatchObject([{ tag: 'E-101', values: { hotIn: expect.closeTo(100, 10) } }]);
  });
});
