import { execFileSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { AppError } from '@/lib/contract/app-error';
import { previewReadings } from '@/lib/ingest/preview-readings';
import { workbookLines } from '@/lib/ingest/xlsx/open-workbook';
import { readWorkbook } from '@/lib/ingest/xlsx/read-workbook';
import { WORKBOOK_LIMITS } from '@/lib/ingest/xlsx/workbook';
import { OPTIONS, readFile, streamOf } from './read-file';
import { workbookOf } from './sheet-file';
import { numberCell, textCell, workbookParts, type ZipPart, zipFile } from './zip-file';

const MEBIBYTE = 1_048_576;
const ROWS = `<row r="1">${textCell('A1', 'tag')}${textCell('B1', 'time')}${textCell('C1', 'hot_in[Cel]')}</row><row r="2">${textCell('A2', 'E-101')}${textCell('B2', '2026-01-31T10:00Z')}${numberCell('C2', 80)}</row>`;
const SOUND = zipFile(workbookParts([ROWS]));
const COMPOUND_FILE = Buffer.from('d0cf11e0a1b11ae1', 'hex');

function withPart(part: ZipPart): Buffer {
  return zipFile([...workbookParts([ROWS]), part]);
}

async function refusal(bytes: Uint8Array, limits = {}): Promise<AppError> {
  const error = await readWorkbook(bytes, limits).then(
    () => null,
    (thrown: unknown) => thrown,
  );
  expect(error).toBeInstanceOf(AppError);
  expect((error as AppError).faults).toHaveLength(1);
  return error as AppError;
}

/** Reading processes of this one that are still there. */
function processes(): number {
  const list = execFileSync('ps', ['-eo', 'ppid=,args='], { encoding: 'utf8' });
  return list
    .split('\n')
    .map((line) => line.trim().split(/\s+/))
    .filter(
      ([parent, ...words]) => Number(parent) === process.pid && words.join(' ').includes('workbook-process'),
    ).length;
}

describe('a workbook as a whole', () => {
  it('is read sheet by sheet with every kind of cell', async () => {
    const book = await workbookOf({
      'Units & more': [
        ['tag', 'area', 'since', 'in use'],
        [],
        ['E-101', 12.5, new Date('2026-01-31T10:00:00Z'), true],
        [null, null, null, false],
      ],
      Empty: [],
    });
    expect(await readWorkbook(book)).toEqual([
      {
        name: 'Units & more',
        rows: [
          ['tag', 'area', 'since', 'in use'],
          [null, null, null, null],
          ['E-101', 12.5, { dateText: '2026-01-31 10:00:00' }, true],
          [null, null, null, false],
        ],
      },
      { name: 'Empty', rows: [] },
    ]);
  });

  it.each<[string, Buffer, string]>([
    ['an old workbook', Buffer.concat([COMPOUND_FILE, Buffer.alloc(600)]), 'old workbook (.xls)'],
    [
      'an encrypted one',
      Buffer.concat([COMPOUND_FILE, Buffer.alloc(600), Buffer.from('EncryptedPackage', 'utf16le')]),
      'protected by a password; save it without one',
    ],
    [
      'one with encrypted parts',
      zipFile(workbookParts([ROWS]).map((part) => ({ ...part, flags: 1 }))),
      'password',
    ],
    [
      'a binary one',
      zipFile([{ name: 'xl/workbook.bin', content: 'x' }]),
      'binary workbook (.xlsb); save it as .xlsx',
    ],
    ['an OpenDocument one', zipFile([{ name: 'content.xml', content: '<a/>' }]), 'OpenDocument'],
    ['another archive', zipFile([{ name: 'readings.csv', content: 'tag,time' }]), 'unpack it first'],
    ['one that is cut off', SOUND.subarray(0, -40), 'damaged or cut off; save it again'],
    ['its beginning', SOUND.subarray(0, 30), 'damaged or cut off; save it again'],
    [
      'one of another packing',
      zipFile(workbookParts([ROWS]).map((part) => ({ ...part, method: 12 }))),
      'damaged',
    ],
    ['one without its sheet', zipFile(workbookParts([ROWS]).slice(0, -1)), 'damaged'],
    ['one whose XML is broken', zipFile(workbookParts([`${ROWS}<row><c`])), 'damaged'],
    [
      'one with a cell that is no number',
      zipFile(workbookParts([ROWS.replace('<v>80<', '<v>eighty<')])),
      'cell in row 2, column 3 of the workbook cannot be read',
    ],
  ])('%s is refused with the remedy', async (_, bytes, message) => {
    for (const error of [await refusal(bytes), await readFile(bytes).catch((thrown: AppError) => thrown)]) {
      expect(error).toBeInstanceOf(AppError);
      expect(error).toMatchObject({ code: 'not-readable', message: expect.stringContaining(message) });
    }
  });

  it('with any one byte of its sheet changed is refused', async () => {
    const sheet = SOUND.indexOf('xl/worksheets/sheet1.xml') + 24;
    for (let at = sheet; at < sheet + 200; at += 23) {
      const damaged = Buffer.from(SOUND);
      damaged[at]! ^= 0x10;
      expect(await refusal(damaged)).toMatchObject({ code: 'not-readable' });
    }
  });
});

describe('a workbook that would be too much', () => {
  const zeros = Buffer.alloc(20 * MEBIBYTE, ' ');

  it.each<[string, Buffer, object, string]>([
    ['in its file', SOUND, { maxBytes: 1000 }, 'larger than'],
    ['in parts', withPart({ name: 'a.xml', content: '' }), { maxEntries: 5 }, 'more than 5 parts'],
    [
      'by what it declares',
      withPart({ name: 'a.xml', content: 'a', declares: 100 * MEBIBYTE }),
      {},
      'unpacks to more than 64 MiB',
    ],
    [
      'by a size beyond 32 bits',
      withPart({ name: 'a.xml', content: 'a', declares: 0xffffffff }),
      {},
      'unpacks to more than',
    ],
    ['by packing', withPart({ name: 'a.xml', content: zeros }), {}, 'more than 200 times its size'],
    [
      'by one cell far out',
      zipFile(workbookParts([`${ROWS}<row r="1000000">${numberCell('XFD1000000', 1)}</row>`])),
      {},
      'a sheet of 1000000 rows and 16384 columns',
    ],
  ])('%s is refused before it is unpacked', async (_, bytes, limits, message) => {
    const error = await refusal(bytes, limits);
    expect(error).toMatchObject({ code: 'too-large', message: expect.stringContaining(message) });
    expect(error.message).toContain('save the sheet as CSV, or send it in parts');
  });

  it('and declares less than it holds is stopped at what it declares', async () => {
    const lying = withPart({ name: 'a.xml', content: zeros, declares: 100 });
    expect(await refusal(lying)).toMatchObject({ code: 'not-readable' });
    const short = withPart({ name: 'a.xml', content: 'a', declares: 100 });
    expect(await refusal(short)).toMatchObject({ code: 'not-readable' });
  });

  it('in a part that is never read does no harm', async () => {
    const pictures = withPart({ name: 'xl/media/image1.png', content: zeros });
    expect(await readWorkbook(pictures)).toHaveLength(1);
  });

  it('in memory takes its own process with it and not this one', { timeout: 120_000 }, async () => {
    const rows = Array.from(
      { length: 40_000 },
      (_, i) => `<row r="${i + 1}">${numberCell(`A${i + 1}`, i)}${numberCell(`AN${i + 1}`, i * 1.5)}</row>`,
    ).join('');
    const book = zipFile(workbookParts([rows]));
    expect((await readWorkbook(book))[0]!.rows).toHaveLength(40_000);
    const error = await refusal(book, { heapMB: 24 });
    expect(error).toMatchObject({ code: 'too-large', message: expect.stringContaining('too much memory') });
    expect((await readWorkbook(SOUND))[0]!.rows).toHaveLength(2);
  });

  it('in time is ended', async () => {
    const error = await refusal(SOUND, { timeMs: 1 });
    expect(error).toMatchObject({ code: 'too-large', message: expect.stringContaining('takes too long') });
  });
});

describe('the reading process', () => {
  it('is gone when the workbook has been read, refused, looked at or left', async () => {
    const rows = Array.from({ length: 5_000 }, (_, i) => ['E-101', new Date(Date.UTC(2026, 0, 1, 0, i)), i]);
    const book = await workbookOf({ Data: [['tag', 'time', 'hot_in[Cel]'], ...rows] });
    await readWorkbook(SOUND);
    await refusal(SOUND.subarray(0, 100));
    await previewReadings(streamOf(book), { ...OPTIONS, timeZone: 'UTC' }, 5);
    for await (const line of workbookLines(book, WORKBOOK_LIMITS)) if (Array.isArray(line)) break;
    await expect.poll(processes, { timeout: 20_000 }).toBe(0);
  });

  it('takes four workbooks at a time, and says so to a fifth', async () => {
    const open = Array.from({ length: 4 }, () => workbookLines(SOUND, WORKBOOK_LIMITS));
    try {
      for (const lines of open) expect((await lines.next()).value).toEqual({ sheet: 'Sheet & 1' });
      await expect(readFile(SOUND)).rejects.toMatchObject({
        code: 'conflict',
        message: expect.stringContaining('try again in a minute'),
      });
    } finally {
      for (const lines of open) await lines.return(undefined);
    }
    expect((await readFile(SOUND)).rows).toMatchObject([{ hotIn: 80 }]);
  });

  it('passes on an error of the source, and takes no more of it than the limit', async () => {
    async function* failing() {
      yield SOUND.subarray(0, 1000);
      throw new Error('disk gone');
    }
    await expect(readFile(failing())).rejects.toThrow('disk gone');
    let pieces = 0;
    async function* endless() {
      yield SOUND;
      for (;;) {
        pieces++;
        yield Buffer.alloc(MEBIBYTE);
      }
    }
    await expect(readFile(endless())).rejects.toMatchObject({ code: 'too-large' });
    expect(pieces).toBe(32);
  });
});
