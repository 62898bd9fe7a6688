import { describe, expect, it } from 'vitest';
import { previewReadings } from '@/lib/ingest/preview-readings';
import { OPTIONS, readFile, streamOf } from './read-file';

const TIME = '2026-01-31T10:00:00Z';
const FILE = `tag;time;hot_in[°C];hot_flow[m³/h];hot_out[Cel]\nE-101;${TIME};80,5;36;–\n`;

/** The file in an encoding of one byte per character, where its bytes above ASCII are these. */
function bytesOf(text: string, codes: Record<string, number>): Buffer {
  return Buffer.from([...text].map((letter) => codes[letter] ?? letter.charCodeAt(0)));
}

// Codes as printed in the vendors' code pages: 1252 (degree B0, cube B3, en dash 96), 850 and 437 (degree F8, dash C4).
const WINDOWS_1252 = bytesOf(FILE, { '°': 0xb0, '³': 0xb3, '–': 0x96 });
const CODE_PAGE_850 = bytesOf(FILE, { '°': 0xf8, '³': 0xfc, '–': 0x2d });

describe('odd encodings', () => {
  it.each<[string, Buffer, string]>([
    ['UTF-8', Buffer.from(FILE), 'utf-8'],
    ['UTF-8 with a byte-order mark', Buffer.from(`\ufeff${FILE}`), 'utf-8'],
    ['UTF-16 LE with a mark', Buffer.from(`\ufeff${FILE}`, 'utf16le'), 'utf-16le'],
    ['UTF-16 BE with a mark', Buffer.from(`\ufeff${FILE}`, 'utf16le').swap16(), 'utf-16be'],
    ['UTF-16 LE without a mark', Buffer.from(FILE, 'utf16le'), 'utf-16le'],
    ['UTF-16 BE without a mark', Buffer.from(FILE, 'utf16le').swap16(), 'utf-16be'],
    ['Windows-1252', WINDOWS_1252, 'windows-1252'],
    ['code page 850', CODE_PAGE_850, 'cp850'],
  ])('%s is found, with its units and its dash for no value', async (_, bytes, encoding) => {
    const { format, faults } = await previewReadings(streamOf(bytes), OPTIONS);
    expect(faults).toEqual([]);
    expect(format.encoding).toBe(encoding);
    const { rows, setAside } = await readFile(bytes);
    expect(setAside).toEqual([]);
    expect(rows).toEqual([
      {
        tag: 'E-101',
        time: '2026-01-31T10:00:00.000Z',
        line: 2,
        hotIn: 80.5,
        hotFlow: expect.closeTo(0.01, 12),
      },
    ]);
  });

  it('Windows-1252 reads names as they were written', async () => {
    const file = bytesOf('time;Tür – Öl €5\n', { ü: 0xfc, '–': 0x96, Ö: 0xd6, '€': 0x80 });
    const { format } = await previewReadings(streamOf(file), OPTIONS);
    expect(format.columns[1]!.name).toBe('Tür – Öl €5');
  });

  it('a word with a letter that the terminals have for a degree does not make a file theirs', async () => {
    const file = bytesOf('time;Kjøl C;søC [°C]\n', { ø: 0xf8, '°': 0xb0 });
    expect((await previewReadings(streamOf(file), OPTIONS)).format.encoding).toBe('windows-1252');
  });

  it('no wrong guess turns a number into another: every byte above ASCII in a cell sets it aside', async () => {
    for (let code = 0x80; code <= 0xff; code++) {
      for (const at of [0, 1, 4]) {
        const cell = Buffer.concat([
          Buffer.from('80.5').subarray(0, at),
          Buffer.of(code),
          Buffer.from('80.5').subarray(at),
        ]);
        const file = Buffer.concat([
          Buffer.from(`tag,time,hot_in[Cel]\nE-101,${TIME},`),
          cell,
          Buffer.from('\n'),
        ]);
        const { rows } = await readFile(file);
        // A byte that is a blank there may stand around a number, never within.
        if (rows.length > 0) expect([rows[0]!.hotIn, at === 1]).toEqual([80.5, false]);
      }
    }
  });

  it('a stray byte far behind the first ones costs its row and no other', async () => {
    const row = `E-101,${TIME},80\n`;
    const before = Buffer.from(`tag,time,hot_in[Cel]\n${row.repeat(20_000)}`);
    expect(before.length).toBeGreaterThan(262_144);
    const file = Buffer.concat([before, Buffer.from(`E-101,${TIME},8\xb00\n`, 'latin1'), Buffer.from(row)]);
    const { rows, setAside } = await readFile(file);
    expect(rows).toHaveLength(20_001);
    expect(setAside).toMatchObject([{ line: 20_002, reason: 'value-not-a-number' }]);
  });

  it('text with NULs that is no UTF-16 is refused', async () => {
    for (const text of ['tag,time\0\0\0', '\0\0\0\0', 'a\0b\0cccccccccc']) {
      await expect(readFile(text)).rejects.toMatchObject({ code: 'not-readable' });
    }
  });
});
