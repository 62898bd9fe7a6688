import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { openReadings, rowMachinery } from '@/lib/ingest/open-readings';
import { textChunks } from '@/lib/ingest/plain/text-chunks';
import { readCells } from '@/lib/ingest/read-cells';
import { lineChunks } from '@/lib/ingest/read-readings';
import type { ReadingChunk } from '@/lib/ingest/reading-chunk';
import type { ReadingOptions } from '@/lib/ingest/reading-format';
import { ENCODERS, iso, LAYOUTS, makeFile, OPTION_SETS, pick } from './made-files';
import { seeded, streamOf } from './read-file';

/** Files of each layout. */
const FILES = 150;
const SEED = 20_261_130;

/** A chunk in which two numbers are the same only where all their bits are. */
function exact(chunk: ReadingChunk) {
  const { length, tags, setAside, statusCells, read } = chunk;
  const bits = (column: Float64Array | Int32Array | Uint8Array) =>
    Buffer.from(column.slice(0, length).buffer).toString('hex');
  const columns = [
    chunk.tag,
    chunk.time,
    chunk.flowBasis,
    chunk.line,
    ...SENSORS.map((sensor) => chunk[sensor]),
  ];
  return { length, read, tags: [...tags], setAside, statusCells, columns: columns.map(bits) };
}

async function gathered(chunks: AsyncIterable<ReadingChunk>) {
  const all: ReturnType<typeof exact>[] = [];
  for await (const chunk of chunks) all.push(exact(chunk));
  return all;
}

/** The chunks of a file read by its bytes, how many lines the parser was still given, and those where it read every line; null for a file that is refused. */
async function bothWays(bytes: Uint8Array, options: ReadingOptions) {
  const byParser = await openReadings(streamOf(bytes), options);
  if (byParser.layout.faults.length > 0) return null;
  const parsed = await gathered(lineChunks(byParser, rowMachinery(byParser, options)));
  const file = await openReadings(streamOf(bytes.subarray(0, 999), bytes.subarray(999)), options);
  const machinery = rowMachinery(file, options);
  let left = 0;
  const read = (texts: string[], first: number) => {
    left += texts.length;
    return file.text!.read(texts, first);
  };
  if (machinery.plain === null) throw new Error('a text file has plain rows');
  return { parsed, plain: await gathered(textChunks({ ...file.text!, read }, machinery)), left };
}

describe(`a file read by its bytes gives what the parser gives (seed ${SEED})`, { timeout: 180_000 }, () => {
  it.each(LAYOUTS)('$name', async (layout) => {
    const random = seeded(SEED);
    let readings = 0;
    let setAside = 0;
    for (let i = 0; i < FILES; i++) {
      const options = pick(random, OPTION_SETS);
      const bytes = pick(random, ENCODERS)(makeFile(layout, random));
      const both = await bothWays(bytes, options);
      if (both === null) continue;
      const { parsed, plain } = both;
      expect(plain).toEqual(parsed);
      for (const chunk of parsed) {
        readings += chunk.length;
        setAside += chunk.setAside.length;
      }
    }
    expect(readings).toBeGreaterThan(FILES * 5);
    expect(setAside).toBeGreaterThan(FILES);
  });

  it('over many chunks, with now and then a line that is not plain', async () => {
    const random = seeded(SEED);
    const lines = Array.from({ length: 40_000 }, (_, i) => {
      const spoilt = random() < 0.001 ? '"open' : random() < 0.01 ? 'Bad' : (random() * 100).toFixed(3);
      return `E-10${1 + (i % 3)},${iso(i)},${spoilt},${i % 90},,`;
    });
    const text = ['tag,time,hot_in[Cel],hot_out[Cel],hot_flow[kg/s],note', ...lines].join('\n');
    const { parsed, plain, left } = (await bothWays(Buffer.from(text), OPTION_SETS[1]!))!;
    expect(parsed.length).toBeGreaterThan(4);
    expect(plain).toEqual(parsed);
    expect(left).toBeLessThan(lines.length / 2);
  });
});

describe('the parser is given no line of a plain file', () => {
  it.each(LAYOUTS)('$name', async (layout) => {
    const random = seeded(SEED);
    const names = layout.header.split(layout.delimiter);
    const lines = Array.from({ length: 500 }, (_, i) => {
      const cells = layout.line(random, () => false, i).map((cell) => cell.replace(/so "so"|"one.*/, ''));
      cells[names.findIndex((name) => /^"?time/.test(name))] = layout.time(i);
      if (names.includes('tag')) cells[names.indexOf('tag')] = pick(random, ['E-101', 'Kühler']);
      return cells.join(layout.delimiter);
    });
    const both = await bothWays(Buffer.from([layout.header, ...lines].join('\r\n')), OPTION_SETS[2]!);
    const { left, plain } = both!;
    expect(plain.reduce((sum, chunk) => sum + chunk.read, 0)).toBe(lines.length);
    expect(left).toBe(0);
  });
});

describe('lines without quotes are cut as csv-parse cuts them', () => {
  const PARTS = [
    ',',
    ';',
    '\t',
    ' ',
    '\r',
    '\f',
    '\v',
    '\u00a0',
    '\ufeff',
    '\u3000',
    'a',
    '8',
    '\0',
    '°',
    '𝛥',
    '#',
    '\\',
  ];
  it.each([',', ';', '\t'] as const)('at %j', (delimiter) => {
    const random = seeded(SEED);
    for (let file = 0; file < 200; file++) {
      const texts = Array.from({ length: 40 }, () =>
        Array.from({ length: 1 + Math.floor(random() * 12) }, () => pick(random, PARTS)).join(''),
      );
      const records = parse(`${texts.join('\r\n')}\r\n`, {
        delimiter,
        record_delimiter: '\r\n',
        relax_column_count: true,
        trim: true,
      }) as string[][];
      // Blanks that are not of ASCII are none to the parser.
      expect(readCells(texts, delimiter)).toEqual(records.map((cells) => cells.map((cell) => cell.trim())));
    }
  });
});
