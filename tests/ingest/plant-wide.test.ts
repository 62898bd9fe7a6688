import { describe, expect, it } from 'vitest';
import { HOT_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';
import { readFile } from './read-file';

const TIME = '2026-01-31T10:00:00Z';
const MAPPING = {
  timeZone: 'Europe/Lisbon',
  timeColumn: 'Sample Time',
  sensors: {
    'TI-1001.PV': { tag: 'E-101', sensor: 'hotIn', unit: '[degF]' },
    'TI-1002.PV': { tag: 'E-101', sensor: 'hotOut', unit: 'Cel' },
    'FI-2001': { tag: 'E-102', sensor: 'hotFlow', unit: 'm3/h' },
    'XV-9': null,
  },
} as const;

describe('plant-wide files', () => {
  it('give one reading per unit and row by their mapping, in its zone, and skip what it says to skip', async () => {
    const file = 'Sample Time,TI-1001.PV,TI-1002.PV,FI-2001,XV-9\n2026-07-01 10:00,212,60,36,OPEN\n';
    const { rows, bases, read, setAside } = await readFile(file, { mapping: MAPPING });
    expect(setAside).toEqual([]);
    expect(rows).toEqual([
      { tag: 'E-101', time: '2026-07-01T09:00:00.000Z', line: 2, hotIn: expect.closeTo(100, 12), hotOut: 60 },
      { tag: 'E-102', time: '2026-07-01T09:00:00.000Z', line: 2, hotFlow: expect.closeTo(0.01, 15) },
    ]);
    expect(bases).toEqual([0, HOT_FLOW_IS_VOLUME]);
    expect(read).toBe(1);
  });

  it('let the options name another zone than the mapping', async () => {
    const file = 'Sample Time,TI-1002.PV\n2026-07-01 10:00,60\n';
    const { rows } = await readFile(file, { mapping: MAPPING, timeZone: 'America/New_York' });
    expect(rows[0]!.time).toBe('2026-07-01T14:00:00.000Z');
  });

  it('are understood without mapping where columns say unit, sensor and unit of measure', async () => {
    const file = `time,E-101.hot_in[Cel],E-101.hot_flow[[gal_us]/min],E-102.hotIn [degF]\n${TIME},80,10,212\n`;
    const { rows } = await readFile(file);
    expect(rows).toMatchObject([
      { tag: 'E-101', hotIn: 80, hotFlow: expect.closeTo(10 * 6.30901964e-5, 15) },
      { tag: 'E-102', hotIn: expect.closeTo(100, 12) },
    ]);
  });

  it('take a tag with points in it', async () => {
    const { rows } = await readFile(`time,U1.E-7.hot_in[Cel]\n${TIME},80\n`, {
      knownTags: new Set(['U1.E-7']),
    });
    expect(rows).toMatchObject([{ tag: 'U1.E-7', hotIn: 80 }]);
  });

  it('leave out a unit without values and set aside a row without any', async () => {
    const file = `time,E-101.hot_in[Cel],E-102.hot_in[Cel]\n${TIME},80,\n${TIME},,\n`;
    const { rows, setAside } = await readFile(file);
    expect(rows.map((row) => row.tag)).toEqual(['E-101']);
    expect(setAside).toMatchObject([{ line: 3, reason: 'no-values' }]);
  });

  it('set aside only the unit whose cell is no number, naming it, once per row', async () => {
    const file = `time,E-101.hot_in[Cel],E-102.hot_in[Cel],E-102.hot_out[Cel],E-103.hot_in[Cel]\n${TIME},80,70,Open,7 m\n`;
    const { rows, setAside, read } = await readFile(file);
    expect(rows.map((row) => row.tag)).toEqual(['E-101']);
    expect(read).toBe(1);
    expect(setAside).toMatchObject([{ line: 2, reason: 'value-not-a-number', field: 'E-102.hot_out[Cel]' }]);
    expect(setAside[0]!.message).toContain('set aside of this row: E-102, E-103');
  });

  it('name at most five units of a row', async () => {
    const tags = Array.from({ length: 8 }, (_, i) => `E-${i}`);
    const file = `time,${tags.map((tag) => `${tag}.hot_in[Cel]`).join()}\n${TIME},${tags.map(() => 'Open').join()}\n`;
    const { setAside } = await readFile(file, { knownTags: new Set(tags) });
    expect(setAside[0]!.message).toContain('E-0, E-1, E-2, E-3, E-4 and 3 more units');
  });

  it('keep the units of a row together across thousands of columns', async () => {
    const tags = Array.from({ length: 6_000 }, (_, i) => `E-${i}`);
    const header = `time,${tags.map((tag) => `${tag}.hot_in[Cel]`).join()}`;
    const row = (first: number) => `${TIME},${tags.map((_, i) => first + i).join()}`;
    const { rows, read } = await readFile([header, row(0), row(1), row(2), ''].join('\n'), {
      knownTags: new Set(tags),
    });
    expect(read).toBe(3);
    expect(rows).toHaveLength(18_000);
    expect(rows.every((found, i) => found.hotIn === (i % 6_000) + Math.floor(i / 6_000))).toBe(true);
  });
});
