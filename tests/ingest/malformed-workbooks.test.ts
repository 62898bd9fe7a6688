import { describe, expect, it } from 'vitest';
import { AppError } from '@/lib/contract/app-error';
import { parseWorkbook } from '@/lib/ingest/xlsx/parse-workbook.mjs';
import { WORKBOOK_LIMITS, type WorkbookCell } from '@/lib/ingest/xlsx/workbook';
import { OPTIONS, readFile, seeded } from './read-file';
import { workbookOf } from './sheet-file';
import { numberCell, textCell, workbookParts, type ZipPart, zipFile } from './zip-file';

/** With the texts of their own test, 10,000. */
const FILES = 2_000;
/** Files that go the whole way through a process of their own; the others are parsed in this one. */
const THROUGH_PROCESS = 200;
/** Longest that one file may take [ms], on a machine that does other things as well. */
const LONGEST = 20_000;

const HEADER = ['tag', 'time', 'hot_in[Cel]'].map((name, i) => textCell(`${'ABC'[i]}1`, name)).join('');
const ROW = `<row r="2">${textCell('A2', 'E-101')}${numberCell('B2', 46_053.4375, 1)}${numberCell('C2', 80.5)}</row>`;
const PARTS = workbookParts([
  `<row r="1">${HEADER}</row>${ROW}`,
  `<row r="3">${textCell('B3', 'Bad')}</row>`,
]);

const SCRAPS = [
  '<',
  '>',
  '"',
  '&',
  '\0',
  '<c',
  '</c>',
  '<row r="9">',
  '</row>',
  ' r="ZZZZZZ9"',
  ' r="A1048577"',
  ' r="A999999999999"',
  ' t="s"',
  ' t="b"',
  ' t="e"',
  ' t="d"',
  ' s="99"',
  '<v>1e999</v>',
  '<v>-1e300</v>',
  '<v>NaN</v>',
  '<!DOCTYPE a [<!ENTITY b "c">]>',
  '&b;',
  '&#x110000;',
  '<![CDATA[',
  ']]>',
  '<!--',
  '<sheet name="x" r:id="rId9"/>',
  '𝛥',
  'é',
  'x'.repeat(40_000),
];

type Random = () => number;
const pick = <T>(from: readonly T[], random: Random): T => from[Math.floor(random() * from.length)]!;

/** A sound workbook with damage to the XML of its parts, to the list of them, or to the bytes of the archive. */
function malformed(sound: Buffer, random: Random): Buffer {
  const kind = random();
  if (kind < 0.5) return zipFile(PARTS.map((part) => (random() < 0.4 ? damagedPart(part, random) : part)));
  if (kind < 0.6) return zipFile(PARTS.filter(() => random() < 0.8));
  const bytes = Buffer.from(kind < 0.8 ? zipFile(PARTS) : sound);
  if (random() < 0.3) return bytes.subarray(0, Math.floor(random() * bytes.length));
  for (let flips = Math.floor(random() * 4); flips >= 0; flips--) {
    // The directory at the end is where an archive lies about itself.
    const from = random() < 0.5 ? 0 : Math.max(0, bytes.length - 600);
    bytes[from + Math.floor(random() * (bytes.length - from))] = Math.floor(random() * 256);
  }
  return bytes;
}

function damagedPart(part: ZipPart, random: Random): ZipPart {
  let text = String(part.content);
  for (let damages = Math.floor(random() * 4); damages >= 0; damages--) {
    const at = Math.floor(random() * text.length);
    const dropped = Math.floor(random() ** 3 * 40);
    const added = random() < 0.3 ? text.slice(at, at + 60) : pick(SCRAPS, random);
    text = text.slice(0, at) + (random() < 0.8 ? added : '') + text.slice(at + dropped);
  }
  return { ...part, content: text, ...(random() < 0.05 && { declares: Math.floor(random() * 2 ** 32) }) };
}

type Outcome = 'read' | 'refused';

/** Parsed in this process: the parser may only ever say that it refuses. */
async function parsed(bytes: Buffer): Promise<Outcome> {
  try {
    for await (const { name, rows } of parseWorkbook(bytes, WORKBOOK_LIMITS)) {
      expect(typeof name).toBe('string');
      for (const row of rows) expect(row.every(isCell)).toBe(true);
    }
    return 'read';
  } catch (error) {
    expect(error).toMatchObject({
      name: 'WorkbookFault',
      code: expect.stringMatching(/^(not-readable|too-large)$/),
    });
    return 'refused';
  }
}

function isCell(cell: WorkbookCell): boolean {
  if (typeof cell === 'number') return Number.isFinite(cell);
  if (typeof cell === 'object' && cell !== null) return typeof cell.dateText === 'string';
  return cell === null || typeof cell === 'string' || typeof cell === 'boolean';
}

async function readThrough(bytes: Buffer): Promise<Outcome> {
  try {
    const { rows } = await readFile(bytes, { timeZone: 'UTC' });
    for (const row of rows) expect(OPTIONS.knownTags.has(row.tag) && Number.isFinite(row.hotIn)).toBe(true);
    return 'read';
  } catch (error) {
    expect(error).toBeInstanceOf(AppError);
    expect((error as AppError).faults.length).toBeGreaterThan(0);
    return 'refused';
  }
}

async function outcomesOf(count: number, read: (bytes: Buffer) => Promise<Outcome>, firstSeed: number) {
  const sound = await workbookOf({
    Data: [
      ['tag', 'time', 'hot_in[Cel]'],
      ['E-101', '2026-01-31T10:00Z', 80],
    ],
  });
  const outcomes: Record<Outcome, number> = { read: 0, refused: 0 };
  let longest = 0;
  for (let seed = firstSeed; seed < firstSeed + count; seed++) {
    const bytes = malformed(sound, seeded(seed));
    const began = performance.now();
    try {
      outcomes[await read(bytes)]++;
    } catch (error) {
      throw new Error(`seed ${seed}`, { cause: error });
    }
    longest = Math.max(longest, performance.now() - began);
  }
  expect(longest).toBeLessThan(LONGEST);
  return outcomes;
}

describe('malformed workbooks', () => {
  it(`${FILES - THROUGH_PROCESS} of them are parsed or refused, and nothing else is ever thrown`, {
    timeout: 300_000,
  }, async () => {
    const outcomes = await outcomesOf(FILES - THROUGH_PROCESS, parsed, 1);
    // The damage must be of all sizes, or the test would only ever see one way out.
    expect(Math.min(...Object.values(outcomes))).toBeGreaterThan(FILES / 20);
  });

  it(`${THROUGH_PROCESS} more are read or refused by way of a process of their own`, {
    timeout: 300_000,
  }, async () => {
    const outcomes = await outcomesOf(THROUGH_PROCESS, readThrough, 100_001);
    expect(Math.min(...Object.values(outcomes))).toBeGreaterThan(THROUGH_PROCESS / 40);
  });
});
