import { describe, expect, it } from 'vitest';
import { readFile } from './read-file';

const TIME = '2026-01-31T10:00:00Z';
const START = 'tag,time,hot_in[Cel],hot_out[Cel]\n';

async function onlyFault(row: string, header = START, options = {}) {
  const { rows, setAside } = await readFile(
    `${header}E-101,${TIME},1.5,2\n${row}\nE-101,${TIME},3.5,4\n`,
    options,
  );
  // Whatever is wrong with a row, those before and after it are read.
  expect(rows.map((read) => read.line)).toEqual([2, 4]);
  expect(setAside).toHaveLength(1);
  expect(setAside[0]).toMatchObject({ line: 3, text: row.slice(0, 500) });
  return setAside[0]!;
}

describe('a row that cannot be read is set aside with line, text and reason', () => {
  const words = ['Yes', 'Open', '0x10', '1e999', '1_000', '.', '--5', '1.2.3', 'Bad 80', '80-', '#80'];
  it.each(words)('where a cell says "%s", even if another cell holds a number', async (word) => {
    const fault = await onlyFault(`E-101,${TIME},80,${word}`);
    expect(fault).toMatchObject({ reason: 'value-not-a-number', field: 'hot_out' });
    expect(fault.message).toContain(
      `"${word}" is not a number; leave the cell empty where nothing was measured`,
    );
  });

  it.each(['5 m', '12.5 °C', '12.5°C', '12.5 *', '80 Bad', '80 (S)', '-3e2 kPa', '12.5 bar g'])(
    'where a unit or a mark of quality follows the number: "%s"',
    async (cell) => {
      const fault = await onlyFault(`E-101,${TIME},80,${cell}`);
      expect(fault).toMatchObject({ reason: 'value-not-a-number', field: 'hot_out' });
      expect(fault.message).toContain(`"${cell}" has something behind its number; write units in the header`);
    },
  );

  it('where thousands are grouped, with how to export them', async () => {
    const text = `tag,time,hot_in[degF],hot_flow[gal/min]\nE-101,2026-01-01T00:00:00Z,174.3,"3,931"\n`;
    const { rows, setAside } = await readFile(text);
    expect(rows).toEqual([]);
    expect(setAside[0]!.message).toMatch(
      /has a comma; .* no thousands separators: export them without, such as 3931$/,
    );
  });

  it('where a number has a decimal comma in a file of decimal points', async () => {
    const fault = await onlyFault(`E-101,${TIME},80,"12,5"`);
    expect(fault).toMatchObject({ reason: 'value-not-a-number', field: 'hot_out' });
    expect(fault.message).toContain('has a comma; numbers of this file are read with a decimal point');
  });

  it('where nothing was measured', async () => {
    expect(await onlyFault(`E-101,${TIME},,`)).toMatchObject({ reason: 'no-values', field: null });
  });

  it('where the unit is not registered, with the tag most like it', async () => {
    const fault = await onlyFault(`e-0102,${TIME},80,60`);
    expect(fault).toMatchObject({ reason: 'unknown-tag', field: 'tag' });
    expect(fault.message).toContain('did you mean "E-102"?');
    expect((await onlyFault(`pump,${TIME},80,60`)).message).not.toContain('did you mean');
  });

  it('where the time cannot be read, names no zone, or is empty', async () => {
    expect(await onlyFault('E-101,31.01.2026 10:00,80,60')).toMatchObject({
      reason: 'time-not-readable',
      field: 'time',
    });
    expect(await onlyFault('E-101,,80,60')).toMatchObject({ reason: 'time-not-readable' });
    const zoneless = await onlyFault('E-101,2026-01-31T10:00,80,60');
    expect(zoneless).toMatchObject({ reason: 'time-without-zone', field: 'time' });
    expect(zoneless.message).toContain("name the file's time zone");
  });

  it('where it has too few or too many fields', async () => {
    expect(await onlyFault(`E-101,${TIME},80`)).toMatchObject({
      reason: 'wrong-number-of-fields',
      field: null,
      message: 'has 3 fields, the header has 4',
    });
    const split = await onlyFault(`E-101,${TIME},80,5,60,2`);
    expect(split.reason).toBe('wrong-number-of-fields');
    expect(split.message).toContain('a decimal comma needs quotes');
  });

  it('where a quote is not closed, and the lines behind it are read', async () => {
    const fault = await onlyFault(`E-101,"${TIME},80,60`);
    expect(fault).toMatchObject({
      reason: 'quoting-broken',
      message: expect.stringContaining('a quote is not closed'),
    });
  });

  it('where text follows a closing quote', async () => {
    const fault = await onlyFault(`"E-101"x,${TIME},80,60`);
    expect(fault).toMatchObject({
      reason: 'quoting-broken',
      message: expect.stringContaining('text follows'),
    });
  });

  it('where a number overflows in conversion', async () => {
    const header = 'tag,time,hot_dp[MPa],hot_out[Cel]\n';
    expect(await onlyFault(`E-101,${TIME},1e305,2`, header)).toMatchObject({
      reason: 'value-not-a-number',
      field: 'hot_dp',
    });
  });

  it('and its text is kept up to 500 characters', async () => {
    const fault = await onlyFault(`E-101,${TIME},80,${'x'.repeat(2000)}`);
    expect(fault.text).toHaveLength(500);
    expect(fault.message.length).toBeLessThan(200);
  });
});

describe('line breaks inside quotes', () => {
  const mapping = { sensors: { remark: null } };
  const header = 'tag,time,hot_in[Cel],remark\n';

  it('are read in a column that is skipped', async () => {
    const file = `${header}E-101,${TIME},80,"one\ntwo ""2""\n"\nE-101,${TIME},81,\n`;
    const { rows, setAside, read } = await readFile(file, { mapping });
    expect(setAside).toEqual([]);
    expect(rows.map((row) => [row.line, row.hotIn])).toEqual([
      [2, 80],
      [5, 81],
    ]);
    expect(read).toBe(2);
  });

  it('never swallow a good row behind a quote left open', async () => {
    const good = (value: number) => `E-101,${TIME},${value},\n`;
    const { rows, setAside } = await readFile(
      `${header}E-101,"${TIME},1,\n${good(2)}${good(3)}E-101,"${TIME},4,\n${good(5)}`,
      { mapping },
    );
    expect(rows.map((row) => row.hotIn)).toEqual([2, 3, 5]);
    expect(setAside.map((row) => [row.line, row.reason])).toEqual([
      [2, 'quoting-broken'],
      [5, 'quoting-broken'],
    ]);
  });

  it('are given up at the end of the file and after twenty lines', async () => {
    const open = `E-101,${TIME},1,"never closed\n`;
    const rows = Array.from({ length: 50 }, (_, i) => `E-101,${TIME},${i},\n`).join('');
    const long = await readFile(header + open + rows, { mapping });
    expect(long.rows).toHaveLength(50);
    expect(long.setAside.map((row) => row.line)).toEqual([2]);
    const short = await readFile(`${header}${open}E-101,${TIME},7,\n`, { mapping });
    expect(short.rows.map((row) => [row.line, row.hotIn])).toEqual([[3, 7]]);
  });
});
