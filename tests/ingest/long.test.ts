import { describe, expect, it } from 'vitest';
import { COLD_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';
import { readFile } from './read-file';

const TIME = '2026-01-31T10:00:00Z';

describe('long files', () => {
  it('give one reading per row, by names of tag and sensor, with a column of units', async () => {
    const file = `time,sensor,value,unit\n${TIME},E-101.hot_in,80,Cel\n${TIME},E-101.cold_flow,36,m3/h\n${TIME},E-101.cold_flow,36,t/h\n`;
    const { rows, bases, setAside } = await readFile(file);
    expect(setAside).toEqual([]);
    expect(rows).toMatchObject([
      { tag: 'E-101', hotIn: 80, line: 2 },
      { coldFlow: expect.closeTo(0.01, 15), line: 3 },
      { coldFlow: expect.closeTo(10, 12), line: 4 },
    ]);
    expect(bases).toEqual([0, COLD_FLOW_IS_VOLUME, 0]);
  });

  it('take the unit from the name or the header where there is no column of units', async () => {
    const named = await readFile(`time,sensor,value\n${TIME},E-101.hot_in[degF],212\n`);
    expect(named.rows).toMatchObject([{ hotIn: expect.closeTo(100, 12) }]);
    const headed = await readFile(`time,sensor,value[degF]\n${TIME},E-101.hot_in,212\n`);
    expect(headed.rows).toMatchObject([{ hotIn: expect.closeTo(100, 12) }]);
  });

  it('take the tag from a column of its own, beside usual names of sensors', async () => {
    const rows = ['hot_in', 'hotOut', 'Cold In', 'cold outlet temperature', 'E-102.hot_in'].map(
      (sensor, i) => `E-101,${TIME},${sensor},${80 - i},Cel`,
    );
    for (const head of ['tag', 'Equipment', 'Asset']) {
      const file = [`${head},time,sensor,value,unit`, ...rows, ''].join('\n');
      const read = await readFile(file, { knownTags: new Set(['E-101', 'E-102']) });
      expect(read.setAside).toEqual([]);
      expect(read.rows).toMatchObject([
        { tag: 'E-101', hotIn: 80 },
        { tag: 'E-101', hotOut: 79 },
        { tag: 'E-101', coldIn: 78 },
        { tag: 'E-101', coldOut: 77 },
        { tag: 'E-102', hotIn: 76 },
      ]);
    }
  });

  it('set aside rows whose own tag nobody knows, and let a mapping skip the column of tags', async () => {
    const rows = [`E-101,${TIME},hot_in,80,Cel`, `E-999,${TIME},hot_in,80,Cel`, `,${TIME},hot_in,80,Cel`];
    const { rows: read, setAside } = await readFile(['tag,time,sensor,value,unit', ...rows, ''].join('\n'));
    expect(read).toMatchObject([{ tag: 'E-101', hotIn: 80 }]);
    expect(setAside.map(({ line, reason, field }) => [line, reason, field])).toEqual([
      [3, 'unknown-tag', 'tag'],
      [4, 'unknown-tag', 'tag'],
    ]);
    const mapping = {
      sensors: { tag: null, 'TI 1': { tag: 'E-101', sensor: 'hotIn', unit: 'Cel' } },
    } as const;
    const skipped = await readFile(`tag,time,sensor,value\nX,${TIME},TI 1,80\n`, { mapping });
    expect(skipped.rows).toMatchObject([{ tag: 'E-101', hotIn: 80 }]);
  });

  it('take any sensor name with a mapping, and skip what it says to skip without a word', async () => {
    const mapping = {
      sensors: { 'TI 1001': { tag: 'E-101', sensor: 'hotIn', unit: 'Cel' }, 'XV-9': null },
    } as const;
    const file = `value;sensor;time\n80,5;TI 1001;${TIME}\n1;XV-9;${TIME}\n`;
    const { rows, read, setAside } = await readFile(file, { mapping });
    expect(rows).toMatchObject([{ tag: 'E-101', hotIn: 80.5 }]);
    expect(setAside).toEqual([]);
    expect(read).toBe(2);
  });

  it('set aside rows of unknown sensors, units and tags, and rows without number or value', async () => {
    const rows = [
      `${TIME},TI-7,80,Cel`,
      `${TIME},E-999.hot_in,80,Cel`,
      `${TIME},E-101.hot_in,80,kg/s`,
      `${TIME},E-101.hot_in,80,`,
      `${TIME},E-101.hot_in,,Cel`,
      `${TIME},E-101.hot_in,Open,Cel`,
      `yesterday,E-101.hot_in,80,Cel`,
    ];
    const { setAside, rows: read } = await readFile(['time,sensor,value,unit', ...rows, ''].join('\n'));
    expect(read).toEqual([]);
    expect(setAside.map((row) => [row.line, row.reason, row.field])).toEqual([
      [2, 'unknown-sensor', 'sensor'],
      [3, 'unknown-tag', 'sensor'],
      [4, 'unknown-sensor', 'unit'],
      [5, 'unknown-sensor', 'unit'],
      [6, 'no-values', 'value'],
      [7, 'value-not-a-number', 'value'],
      [8, 'time-not-readable', 'time'],
    ]);
    expect(setAside[2]!.message).toContain('"kg/s" is no unit of temperature; use for example Cel');
    expect(setAside[3]!.message).toContain('add a column "unit", such as Cel');
  });

  it('stay quick in a file of a hundred thousand unknown names', async () => {
    const knownTags = new Set(Array.from({ length: 10_000 }, (_, i) => `UNIT-${i}-EXCHANGER`));
    const lines = Array.from({ length: 100_000 }, (_, i) => `${TIME},UNIT-${i}-EXCHANGES.hot_in,80,Cel`);
    const started = performance.now();
    const { setAside } = await readFile(['time,sensor,value,unit', ...lines].join('\n'), { knownTags });
    expect(setAside).toHaveLength(100_000);
    expect(setAside[0]!.message).toContain('did you mean "UNIT-0-EXCHANGER"?');
    // Without the cap on suggestions this is a matter of hours.
    expect(performance.now() - started).toBeLessThan(30_000);
  });
});
