import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Cells, type Delimiter, readCells } from '@/lib/ingest/read-cells';
import { COMMA, POINT, readDecimal } from '@/lib/ingest/read-decimal';
import { readFile } from './read-file';

const SEED = 20_261_125;

function cellsOf(text: string, delimiter: Delimiter = ','): Cells {
  return readCells([text], delimiter)[0]!;
}

describe('cells of a line', () => {
  it('are split at the delimiter and freed of blanks', () => {
    expect(cellsOf(' a , b\t,,\u00a0c\u202f')).toEqual(['a', 'b', '', 'c']);
    expect(cellsOf('a\t b \t', '\t')).toEqual(['a', 'b', '']);
    expect(cellsOf('')).toEqual(['']);
    expect(cellsOf('  ')).toEqual(['']);
    expect(cellsOf(',')).toEqual(['', '']);
  });

  // Shafranovich, Common Format and MIME Type for CSV Files, RFC 4180 (2005), section 2: examples 1, 5, 6 and 7.
  it.each([
    ['aaa,bbb,ccc', ['aaa', 'bbb', 'ccc']],
    ['"aaa","bbb","ccc"', ['aaa', 'bbb', 'ccc']],
    ['"aaa","b\nbb","ccc"', ['aaa', 'b\nbb', 'ccc']],
    ['"aaa","b""bb","ccc"', ['aaa', 'b"bb', 'ccc']],
  ])('are those of RFC 4180: %j', (text, cells) => expect(cellsOf(text)).toEqual(cells));

  it('may be quoted', () => {
    expect(cellsOf('"a,b","say ""x""",""')).toEqual(['a,b', 'say "x"', '']);
    expect(cellsOf(' " a " ,\u00a0"b"\t')).toEqual(['a', 'b']);
    expect(cellsOf('5" pipe,b')).toEqual(['5" pipe', 'b']);
    expect(cellsOf('5" pipe,"b, ""c"""')).toEqual(['5" pipe', 'b, "c"']);
  });

  it('are none where a quote is not closed or text follows it', () => {
    expect(cellsOf('"a')).toBe('open');
    expect(cellsOf('a,"b""')).toBe('open');
    expect(cellsOf('5" pipe,"b')).toBe('open');
    expect(cellsOf('"a"b,c')).toBe('broken');
    expect(cellsOf('"a" b,c')).toBe('broken');
    expect(cellsOf('5" pipe,"a"b')).toBe('broken');
  });

  it(`are read back as RFC 4180 has them written (seed ${SEED})`, () => {
    const cell = fc.string({
      unit: fc.constantFrom('a', '1', '.', '"', ',', ';', ' ', 'é', '\t'),
      maxLength: 8,
    });
    const written = (text: string) => (/^[a1.é]*$/.test(text) ? text : `"${text.replaceAll('"', '""')}"`);
    fc.assert(
      fc.property(
        fc.array(fc.array(cell, { minLength: 1, maxLength: 6 }), { maxLength: 6 }),
        fc.constantFrom<Delimiter>(',', ';', '\t'),
        (lines, delimiter) => {
          const texts = lines.map((cells) => cells.map(written).join(delimiter));
          const expected = lines.map((cells) => cells.map((text) => text.trim()));
          expect(readCells(texts, delimiter)).toEqual(expected);
        },
      ),
      { seed: SEED, numRuns: 5_000 },
    );
  });

  // In a file whose lines end with a carriage return, line feeds may stand inside lines, and the other way round.
  it.each(['\n', '\r'])(
    `are the same whichever lines are around, with %j inside (seed ${SEED})`,
    (inside) => {
      const text = fc.string({ unit: fc.constantFrom('a', '"', '"', ',', ' ', inside), maxLength: 10 });
      fc.assert(
        fc.property(fc.array(text, { maxLength: 8 }), (texts) => {
          expect(readCells(texts, ',')).toEqual(texts.map((line) => cellsOf(line)));
        }),
        { seed: SEED, numRuns: 5_000 },
      );
    },
  );
});

describe('decimal numbers', () => {
  const read = (text: string, sign = POINT) => readDecimal(text, sign);

  it.each([
    '0',
    '-0.5',
    '+7',
    '007',
    '.5',
    '5.',
    '12.5e3',
    '1E-7',
    '123456789012345',
    '12345678901234567890',
    '0.1234567890123456789',
  ])('%s is read as the platform reads it', (text) => expect(read(text)).toBe(Number(text)));

  it('a typeset minus sign counts as one', () => expect(read('\u22125.5')).toBe(-5.5));

  it('with a decimal comma, a point is no decimal sign', () => {
    expect(read('12,5', COMMA)).toBe(12.5);
    expect(read('1,25e2', COMMA)).toBe(125);
    expect(read('12.5', COMMA)).toBeNaN();
    expect(read('12,5')).toBeNaN();
  });

  it.each([
    '',
    '-',
    '+',
    '.',
    'e5',
    '1e',
    '1e+',
    '0x1F',
    '0b1',
    'NaN',
    'Infinity',
    '1e400',
    '1 000',
    '1,000.5',
    '1.2.3',
    '--1',
    '1-',
    '٣',
    'Bad',
  ])('"%s" is none', (text) => expect(read(text)).toBeNaN());

  it(`every number the platform writes is read back to the bit (seed ${SEED})`, () => {
    const anyNumber = fc.double({ noNaN: true, noDefaultInfinity: true });
    fc.assert(
      fc.property(
        anyNumber,
        fc.integer({ min: 0, max: 12 }),
        fc.integer({ min: -1e9, max: 1e9 }),
        (any, digits, plain) => {
          expect(read(String(any)) === any).toBe(true);
          const fixed = (plain / 1000).toFixed(digits);
          expect(read(fixed) === Number(fixed)).toBe(true);
          expect(read(fixed.replace('.', ','), COMMA) === Number(fixed)).toBe(true);
        },
      ),
      { seed: SEED, numRuns: 20_000 },
    );
  });
});

describe('cells and names of a million characters', () => {
  it.each([
    ['digits with a letter behind', `${'1'.repeat(900_000)}x`],
    ['digits, a point and a letter', `${'1'.repeat(400_000)}.${'1'.repeat(400_000)}x`],
    ['digits with blanks behind', `1${' '.repeat(900_000)}x`],
    ['dashes', `${'-'.repeat(900_000)}x`],
  ])('%s take no longer than reading them', async (_, cell) => {
    const began = performance.now();
    const { setAside } = await readFile(`tag,time,hot_in[Cel]\nE-101,2026-01-31T10:00:00Z,${cell}\n`);
    expect(setAside).toMatchObject([{ line: 2, reason: 'value-not-a-number' }]);
    expect(performance.now() - began).toBeLessThan(10_000);
  });

  it.each([
    ['_'.repeat(200_000)],
    ['(x'.repeat(100_000)],
    ['[x'.repeat(100_000)],
    ['-1'.repeat(100_000)],
    ['a.'.repeat(100_000)],
  ])('a name of them is refused as quickly', async (name) => {
    const began = performance.now();
    const file = `time,${name}\n2026-01-31T10:00:00Z,80\n`;
    await expect(readFile(file)).rejects.toMatchObject({ code: 'invalid-input' });
    expect(performance.now() - began).toBeLessThan(10_000);
  });
});
