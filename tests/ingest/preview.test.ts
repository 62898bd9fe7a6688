import { describe, expect, it } from 'vitest';
import { HOT_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';
import { previewReadings } from '@/lib/ingest/preview-readings';
import { OPTIONS, streamOf } from './read-file';

const TIME = '2026-01-31T10:00:00Z';

describe('the preview of a file', () => {
  it('says how the file is written and what its columns hold', async () => {
    const file = `tag;time;hot_in[degF];hot_flow[m3/h]\nE-101;${TIME};212,0;36\n`;
    const { format, faults } = await previewReadings(streamOf(file), OPTIONS);
    expect(faults).toEqual([]);
    expect(format).toEqual({
      kind: 'canonical',
      container: 'text',
      sheet: null,
      headerRows: [{ line: 1, role: 'names' }],
      delimiter: ';',
      decimalComma: true,
      encoding: 'utf-8',
      compressed: false,
      columns: [
        { name: 'tag', use: 'tag', tag: null, sensor: null, unit: null, description: '' },
        { name: 'time', use: 'time', tag: null, sensor: null, unit: null, description: '' },
        { name: 'hot_in[degF]', use: 'reading', tag: null, sensor: 'hotIn', unit: 'degF', description: '' },
        {
          name: 'hot_flow[m3/h]',
          use: 'reading',
          tag: null,
          sensor: 'hotFlow',
          unit: 'm3/h',
          description: '',
        },
      ],
      times: { format: 'iso', evidence: '' },
    });
  });

  it('shows the first rows as written and as read, and those set aside', async () => {
    const file = `tag;time;hot_in[degF];hot_flow[m3/h]\nE-101;${TIME};212,0;36\n\nE-101;${TIME};Open;\nE-101;${TIME};32,0;\n`;
    const { rows, setAside } = await previewReadings(streamOf(file), OPTIONS, 2);
    const reading = {
      tag: 'E-101',
      time: Date.parse(TIME),
      values: { hotIn: expect.closeTo(100, 12), hotFlow: expect.closeTo(0.01, 15) },
      flowBasis: HOT_FLOW_IS_VOLUME,
    };
    expect(rows).toEqual([
      { line: 2, text: `E-101;${TIME};212,0;36`, cells: ['E-101', TIME, '212,0', '36'], readings: [reading] },
      { line: 4, text: `E-101;${TIME};Open;`, cells: ['E-101', TIME, 'Open', ''], readings: [] },
    ]);
    expect(setAside).toMatchObject([{ line: 4, reason: 'value-not-a-number' }]);
  });

  it('shows columns nobody knows instead of refusing, with cells to map them by', async () => {
    const file = `Sample Time,TI-1001,E-101.hot_out[Cel]\n${TIME},80,60\n`;
    const { format, rows, faults, setAside } = await previewReadings(streamOf(file), OPTIONS);
    expect(format.kind).toBe('plant-wide');
    expect(format.columns.map((column) => column.use)).toEqual(['unknown', 'unknown', 'reading']);
    expect(format.columns[2]).toMatchObject({ tag: 'E-101', sensor: 'hotOut', unit: 'Cel' });
    expect(faults.map((fault) => fault.field)).toEqual(['Sample Time', 'TI-1001', 'time']);
    expect(rows).toEqual([{ line: 2, text: `${TIME},80,60`, cells: [TIME, '80', '60'], readings: [] }]);
    expect(setAside).toEqual([]);
  });

  it('shows all units of a plant-wide row', async () => {
    const file = `time,E-101.hot_in[Cel],E-102.hot_in[Cel]\n${TIME},80,81\n`;
    const { rows } = await previewReadings(streamOf(file), OPTIONS);
    expect(rows[0]!.readings.map((reading) => [reading.tag, reading.values])).toEqual([
      ['E-101', { hotIn: 80 }],
      ['E-102', { hotIn: 81 }],
    ]);
  });

  it('shows cells of no row it cannot split, and no endless line', async () => {
    const file = `tag,time,hot_in[Cel]\n"E-101,${TIME},80\n${'x'.repeat(1_100_000)}\n`;
    const { rows, setAside } = await previewReadings(streamOf(file), OPTIONS);
    expect(rows.map((row) => [row.line, row.cells.length, row.text.length])).toEqual([
      [2, 0, 30],
      [3, 0, 500],
    ]);
    expect(setAside.map((row) => row.reason)).toEqual(['quoting-broken', 'line-too-long']);
  });

  it('stops reading the source once it has enough', async () => {
    let pieces = 0;
    async function* endless() {
      yield Buffer.from('tag,time,hot_in[Cel]\n');
      for (;;) {
        pieces++;
        yield Buffer.from(`E-101,${TIME},80\n`.repeat(1_000));
      }
    }
    const { rows } = await previewReadings(endless(), OPTIONS, 20);
    expect(rows).toHaveLength(20);
    // 256 KiB are looked at to find out how the file is written.
    expect(pieces).toBeLessThan(12);
  });
});
