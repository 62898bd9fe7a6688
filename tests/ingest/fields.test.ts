import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { COMMA, POINT, readDecimal } from '@/lib/ingest/read-decimal';
import { type Delimiter, fieldText, makeFields, splitFields } from '@/lib/ingest/split-fields';

const SEED = 20_261_125;

function split(line: string, delimiter: Delimiter = ','): string[] | string {
  const fields = makeFields();
  const wholeness = splitFields(line, delimiter, fields);
  return wholeness === 'whole'
    ? Array.from({ length: fields.count }, (_, i) => fieldText(fields, i))
    : wholeness;
}

describe('fields of a line', () => {
  it('are split at the delimiter and freed of blanks', () => {
    expect(split(' a , b\t,,\u00a0c ')).toEqual(['a', 'b', '', 'c']);
    expect(split('a\t b \t', '\t')).toEqual(['a', 'b', '']);
    expect(split('')).toEqual(['']);
  });

  it('may be quoted', () => {
    expect(split('"a,b","say ""x""",""')).toEqual(['a,b', 'say "x"', '']);
    expect(split('5" pipe,b')).toEqual(['5" pipe', 'b']);
    expect(split('"a')).toBe('open');
    expect(split('a,"b""')).toBe('open');
    expect(split('"a"b,c')).toBe('broken');
  });

  it(`are those an established CSV reader finds (seed ${SEED})`, () => {
    const field = fc.string({
      unit: fc.constantFrom('a', '1', '.', '"', ',', ';', ' ', 'é', '\t'),
      maxLength: 8,
    });
    fc.assert(
      fc.property(
        fc.array(field, { minLength: 1, maxLength: 6 }),
        fc.constantFrom<Delimiter>(',', ';', '\t'),
        (fields, delimiter) => {
          const line = fields
            .map((text) => (/^[a1.é]*$/.test(text) ? text : `"${text.replaceAll('"', '""')}"`))
            .join(delimiter);
          fc.pre(line !== '');
          const expected = parse(line, { delimiter })[0]!.map((text: string) => text.trim());
          expect(split(line, delimiter)).toEqual(expected);
        },
      ),
      { seed: SEED, numRuns: 5_000 },
    );
  });
});

describe('decimal numbers', () => {
  const read = (text: string, sign = POINT) => readDecimal(`9${text}9`, 1, 1 + text.length, sign);

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
