import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { readFile, streamOf } from './read-file';

const TIME = '2026-01-31T10:00:00Z';
const FILE = `tag,time,hot_in[°C],hot_out[Cel]\nE-101,${TIME},80.5,60\n`;
const EXPECTED = [{ tag: 'E-101', hotIn: 80.5, hotOut: 60, line: 2 }];

function utf16be(text: string): Buffer {
  return Buffer.from(text, 'utf16le').swap16();
}

describe('encodings and compression', () => {
  it.each([
    ['UTF-8', Buffer.from(FILE)],
    ['UTF-8 with byte-order mark', Buffer.from(`\ufeff${FILE}`)],
    ['UTF-16 LE with byte-order mark', Buffer.from(`\ufeff${FILE}`, 'utf16le')],
    ['UTF-16 BE with byte-order mark', utf16be(`\ufeff${FILE}`)],
    ['Latin-1', Buffer.from(FILE, 'latin1')],
    ['gzip', gzipSync(FILE)],
    ['gzip of UTF-16', gzipSync(Buffer.from(`\ufeff${FILE}`, 'utf16le'))],
    ['gzip of two members', Buffer.concat([gzipSync(FILE.slice(0, 50)), gzipSync(FILE.slice(50))])],
    ['line ends of CR LF', Buffer.from(FILE.replaceAll('\n', '\r\n'))],
    ['line ends of CR alone', Buffer.from(FILE.replaceAll('\n', '\r'))],
  ])('reads %s', async (_, bytes) => {
    const { rows, setAside } = await readFile(bytes);
    expect(setAside).toEqual([]);
    expect(rows).toMatchObject(EXPECTED);
  });

  it('reads the micro and power signs of units', async () => {
    for (const encoding of ['utf8', 'latin1'] as const) {
      const file = Buffer.from(`tag;time;hot_flow[m³/h];hot_dp[µbar]\nE-101;${TIME};36;10\n`, encoding);
      const { rows } = await readFile(file);
      expect(rows).toMatchObject([
        { hotFlow: expect.closeTo(0.01, 15), hotPressureDrop: expect.closeTo(1, 12) },
      ]);
    }
  });

  it('refuses gzip that is cut off or damaged, with the remedy', async () => {
    const whole = gzipSync(FILE.repeat(50));
    const damaged = Buffer.from(whole);
    damaged[20]! ^= 0xff;
    for (const bytes of [whole.subarray(0, -12), damaged, whole.subarray(0, 2)]) {
      await expect(readFile(bytes)).rejects.toMatchObject({
        code: 'not-readable',
        message: expect.stringContaining('copy it again'),
      });
    }
  });

  it('refuses damage that shows up late in a large gzip file', async () => {
    let random = 1;
    const lines = Array.from({ length: 40_000 }, () => {
      random = (random * 16_807) % 2_147_483_647;
      return `E-101,${TIME},${random},1`;
    });
    const whole = gzipSync(FILE + lines.join('\n'));
    await expect(readFile(streamOf(whole.subarray(0, whole.length - 100)))).rejects.toMatchObject({
      code: 'not-readable',
    });
  });

  it('does not fail where a character of the head is cut by its end', async () => {
    const padding = `E-101,${TIME},1,2\n`;
    const rows = Math.floor((262_144 - Buffer.byteLength(FILE)) / padding.length) - 1;
    const before = FILE + padding.repeat(rows);
    const gap = 262_144 - Buffer.byteLength(before) - 1;
    const { rows: read, setAside } = await readFile(`${before}${'x'.repeat(gap)}°,${TIME},1,2\n${padding}`);
    expect(read).toHaveLength(rows + 2);
    expect(setAside).toMatchObject([{ reason: 'unknown-tag', text: expect.stringContaining('x°,') }]);
  });
});

describe('delimiters', () => {
  it.each([
    ['comma', ','],
    ['semicolon', ';'],
    ['tab', '\t'],
  ])('%s is found from the header and first rows', async (_, delimiter) => {
    const file = FILE.replace('80.5', '80').replaceAll(',', delimiter);
    expect((await readFile(file)).rows).toMatchObject([{ hotIn: 80, hotOut: 60 }]);
  });

  it('commas in the names of a semicolon file do not mislead', async () => {
    const sensor = { tag: 'E-101', sensor: 'hotIn', unit: 'Cel' } as const;
    const mapping = { sensors: { 'TI-1, top, left, hot': sensor } };
    const { rows } = await readFile(`time;TI-1, top, left, hot\n${TIME};80,5\n`, { mapping });
    expect(rows).toMatchObject([{ hotIn: 80.5 }]);
  });

  it('a line "sep=;" names it', async () => {
    expect((await readFile(`sep=;\ntag;time;hot_in[Cel]\nE-101;${TIME};80\n`)).rows).toMatchObject([
      { hotIn: 80, line: 3 },
    ]);
  });

  it('quoted fields may hold it, doubled quotes and blanks around', async () => {
    const mapping = {
      sensors: { 'say "hot", left [Cel]': { tag: 'E-101', sensor: 'hotIn', unit: 'Cel' } },
    } as const;
    const file = `"time","say ""hot"", left [Cel]"\n "${TIME}" , "80" \n`;
    expect((await readFile(file, { mapping })).rows).toMatchObject([{ hotIn: 80 }]);
  });

  it('a header may be broken over lines inside quotes', async () => {
    const file = `tag,time,"Hot in\n[°C]"\nE-101,${TIME},80\n`;
    expect((await readFile(file)).rows).toMatchObject([{ hotIn: 80, line: 3 }]);
  });
});

describe('decimal commas', () => {
  async function values(header: string, cells: string[]) {
    const file = [
      header,
      ...cells.map((cell) =>
        header
          .replace(/[^;,\t]+$/, cell)
          .replace('tag', 'E-101')
          .replace('time', TIME),
      ),
    ];
    const { rows, setAside } = await readFile(file.join('\n'));
    return { read: rows.map((row) => row.hotIn), aside: setAside.map((row) => row.reason) };
  }
  const semicolons = 'tag;time;hot_in[Cel]';
  const tabs = 'tag\ttime\thot_in[Cel]';
  const commas = 'tag,time,hot_in[Cel]';

  it('are read between semicolons, even with three decimals', async () => {
    expect(await values(semicolons, ['12,5', '-3,25', '7'])).toEqual({ read: [12.5, -3.25, 7], aside: [] });
    expect(await values(semicolons, ['65,123'])).toEqual({ read: [65.123], aside: [] });
  });

  it('are read between tabs and in quotes between commas, where one is surely no thousands separator', async () => {
    expect(await values(tabs, ['12,5', '65,123'])).toEqual({ read: [12.5, 65.123], aside: [] });
    expect(await values(commas, ['"12,5"', '"65,123"'])).toEqual({ read: [12.5, 65.123], aside: [] });
  });

  it('are not guessed where every one could be a thousand: those rows are set aside', async () => {
    const expected = { read: [7], aside: ['value-not-a-number', 'value-not-a-number'] };
    expect(await values(tabs, ['1,234', '65,123', '7'])).toEqual(expected);
    expect(await values(commas, ['"1,234"', '"65,123"', '7'])).toEqual(expected);
  });

  it('are not mixed with points: the fewer are set aside', async () => {
    expect(await values(semicolons, ['12,5', '12,6', '1.234'])).toEqual({
      read: [12.5, 12.6],
      aside: ['value-not-a-number'],
    });
    expect(await values(semicolons, ['12.5', '12.6', '1,5'])).toEqual({
      read: [12.5, 12.6],
      aside: ['value-not-a-number'],
    });
    expect(await values(semicolons, ['12,5', '1.234,5'])).toEqual({
      read: [12.5],
      aside: ['value-not-a-number'],
    });
  });

  it('leave points between semicolons alone', async () => {
    expect(await values(semicolons, ['12.5', '7'])).toEqual({ read: [12.5, 7], aside: [] });
  });
});
