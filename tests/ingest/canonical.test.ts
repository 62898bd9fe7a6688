import { describe, expect, it } from 'vitest';
import { COLD_FLOW_IS_VOLUME, HOT_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';
import { readReadings } from '@/lib/ingest/read-readings';
import { CHUNK_ROWS, type ReadingChunk } from '@/lib/ingest/reading-chunk';
import { HEADER, OPTIONS, readFile, streamOf } from './read-file';

const TIME = '2026-01-31T10:00:00Z';

describe('canonical files', () => {
  it('gives one reading per row, in SI, with its line', async () => {
    const file = `${HEADER}\nE-101,${TIME},80.5,60,20,35.25,12.5,36,40,32.1\nE-102,2026-01-31T11:00:00+01:00,81,61,21,36,13,72,41,33\n`;
    const { rows, read, setAside } = await readFile(file);
    expect(setAside).toEqual([]);
    expect(read).toBe(2);
    expect(rows[0]).toEqual({
      tag: 'E-101',
      time: '2026-01-31T10:00:00.000Z',
      line: 2,
      hotIn: 80.5,
      hotOut: 60,
      coldIn: 20,
      coldOut: 35.25,
      hotFlow: 12.5,
      coldFlow: expect.closeTo(0.01, 15),
      hotPressureDrop: 40_000,
      coldPressureDrop: 32_100,
    });
    expect(rows[1]).toMatchObject({ tag: 'E-102', time: '2026-01-31T10:00:00.000Z', line: 3 });
  });

  it('takes an empty field as not measured', async () => {
    const { rows } = await readFile(`${HEADER}\nE-101,${TIME},80,,,,,,,\n`);
    expect(rows).toEqual([{ tag: 'E-101', time: '2026-01-31T10:00:00.000Z', line: 2, hotIn: 80 }]);
  });

  it('marks volume flows and leaves mass flows unmarked', async () => {
    const { bases } = await readFile(
      `tag,time,hot_flow[m3/h],cold_flow[t/h]\nE-101,${TIME},1,1\nE-101,${TIME},,1\n`,
    );
    expect(bases).toEqual([HOT_FLOW_IS_VOLUME, 0]);
    const cold = await readFile(`tag,time,cold_flow[[gal_us]/min]\nE-101,${TIME},1\n`);
    expect(cold.bases).toEqual([COLD_FLOW_IS_VOLUME]);
  });

  it('takes columns in any order, any subset, and however their names are spelt', async () => {
    const file = `Hot Out [degC];TIMESTAMP;hotIn[K];Cold-In (°C);TAG\n60;${TIME};353,15;20;E-101\n`;
    const { rows, setAside } = await readFile(file);
    expect(setAside).toEqual([]);
    expect(rows).toMatchObject([{ hotIn: expect.closeTo(80, 12), hotOut: 60, coldIn: 20 }]);
  });

  it.each(['Tag', 'Unit', 'Equipment', 'Asset', 'Exchanger', 'Unit tag'])(
    'takes usual headings, with the tags under %s',
    async (head) => {
      const file = `${head},Timestamp,Hot In (degF),Hot outlet temperature (degF),Cold side inlet (Cel),Hot Flow (gpm),Cold flow rate [t/h]\nE-101,${TIME},212,122,20,100,36\nE-999,${TIME},212,122,20,100,36\n`;
      const { rows, bases, setAside } = await readFile(file);
      expect(rows).toMatchObject([
        { tag: 'E-101', hotIn: expect.closeTo(100, 9), hotOut: expect.closeTo(50, 9), coldIn: 20 },
      ]);
      expect(rows[0]!.coldFlow).toBeCloseTo(10, 9);
      expect(bases).toEqual([HOT_FLOW_IS_VOLUME]);
      expect(setAside).toMatchObject([{ line: 3, reason: 'unknown-tag' }]);
    },
  );

  it('takes a column called unit for tags only beside columns of sensors without a tag', async () => {
    const file = `time,Unit,E-101.hot_in[Cel]\n${TIME},1,80\n`;
    const { rows } = await readFile(file, { mapping: { sensors: { Unit: null } } });
    expect(rows).toMatchObject([{ tag: 'E-101', hotIn: 80 }]);
    const refusal = await readFile(file).catch((error) => error.faults);
    expect(refusal).toMatchObject([{ field: 'Unit' }]);
  });

  it('reads a row whose separators run on past the last column', async () => {
    const { rows } = await readFile(`tag,time,hot_in[Cel],,\nE-101,${TIME},80,,\nE-101,${TIME},81,,,,\n`);
    expect(rows.map((row) => row.hotIn)).toEqual([80, 81]);
  });

  it('passes over blank lines and rows of separators alone, and still counts their lines', async () => {
    const { rows, read } = await readFile(`tag,time,hot_in[Cel]\n\n,,\n  \nE-101,${TIME},80\n\n`);
    expect(rows).toMatchObject([{ hotIn: 80, line: 5 }]);
    expect(read).toBe(1);
  });

  it('gives no chunk for a file with a header only', async () => {
    expect(await readFile(`${HEADER}\n`)).toEqual({ rows: [], bases: [], setAside: [], read: 0 });
  });

  it('reads a last line without line end', async () => {
    expect((await readFile(`${HEADER}\nE-101,${TIME},80,,,,,,,`)).rows).toHaveLength(1);
  });

  it('gives late, repeated and unordered rows as they come', async () => {
    const rows = ['2026-03-01T00:00Z', '2026-01-01T00:00Z', '2026-01-01T00:00Z'].map(
      (time) => `E-101,${time},80`,
    );
    const read = await readFile(['tag,time,hot_in[Cel]', ...rows].join('\n'));
    expect(read.rows.map((row) => row.time.slice(0, 10))).toEqual(['2026-03-01', '2026-01-01', '2026-01-01']);
  });
});

describe('chunks', () => {
  it('hold at most their rows, in the order of the file, and share one growing list of tags', async () => {
    const lines = Array.from({ length: 20_000 }, (_, i) => `E-10${1 + Math.floor(i / 9_000)},${TIME},${i}`);
    const chunks: ReadingChunk[] = [];
    const source = streamOf(['tag,time,hot_in[Cel]', ...lines].join('\n'));
    for await (const chunk of readReadings(source, OPTIONS)) chunks.push(chunk);
    expect(chunks.map((chunk) => chunk.length)).toEqual([CHUNK_ROWS, CHUNK_ROWS, 20_000 - 2 * CHUNK_ROWS]);
    expect(chunks.every((chunk) => chunk.tags === chunks[0]!.tags)).toBe(true);
    expect(chunks[0]!.tags).toEqual(['E-101', 'E-102', 'E-103']);
    const values = chunks.flatMap((chunk) => [...chunk.hotIn.subarray(0, chunk.length)]);
    expect(values).toEqual(lines.map((_, i) => i));
    const numbers = chunks.flatMap((chunk) => [...chunk.line.subarray(0, chunk.length)]);
    expect(numbers).toEqual(lines.map((_, i) => i + 2));
  });

  it('are ended by rows set aside too, so that a file of bad rows stays bounded', async () => {
    const lines = Array.from({ length: CHUNK_ROWS + 10 }, () => `E-101,${TIME},Bad`);
    const counts: number[] = [];
    const source = streamOf(['tag,time,hot_in[Cel]', ...lines].join('\n'));
    for await (const chunk of readReadings(source, OPTIONS)) counts.push(chunk.setAside.length);
    expect(counts).toEqual([CHUNK_ROWS, 10]);
  });
});
