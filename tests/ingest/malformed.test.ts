import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { AppError } from '@/lib/contract/app-error';
import { SET_ASIDE_REASONS } from '@/lib/contract/import-report';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { previewReadings } from '@/lib/ingest/preview-readings';
import { readReadings } from '@/lib/ingest/read-readings';
import type { ReadingChunk } from '@/lib/ingest/reading-chunk';
import type { ReadingOptions } from '@/lib/ingest/reading-format';
import { HEADER, OPTIONS, seeded, streamOf } from './read-file';

/** With the workbooks of their own test, 10,000. */
const FILES = 8_000;
/** Longest that one file may take [ms], on a machine that does other things as well. */
const LONGEST = 20_000;
const FIRST_SEED = 1;
const TIME = '2026-10-25 01:30';

const SOUND = [
  `tag,time,hot_in[Cel],note\nE-101,2026-01-01T00:00Z,80,${'so '.repeat(40)}\n`,
  `${HEADER}\nE-101,2026-01-01T00:00Z,80,60,20,35,12,36,40,32\n"E-102",${TIME},81.5,,,,,,,\n`,
  `tag;time;hot_in[Cel];remark\nE-101;2026-01-01T00:00Z;80,5;"one\ntwo"\nE-102;2026-01-01T01:00+01:00;81,5;ok\n`,
  `time,sensor,value,unit\n2026-01-01T00:00Z,E-101.hot_in,80,Cel\n${TIME},TI-1,12,[gal_us]/min\n`,
  `time\tE-101.hot_in[Cel]\tTI-1\n2026-01-01T00:00Z\t80\t1\n${TIME}\tBad\t2\n`,
  `Report;of;2026\n\nTag;E-101.hot_in;E-102.cold_flow\nwhat;Inlet °C;Flow\nUnits;°C;m³/h\n2026-01-01T00:00Z;80,5;No Data\n2026-01-01T01:00Z;81,5;12\n`,
  `{"tag":"E-101","time":"2026-01-01T00:00Z","hotIn":{"value":80,"unit":"Cel"},"coldFlow":null}\n{"sensor":"E-102.hot_in","time":"2026-01-01T00:00Z","value":1e1,"unit":"K"}\n`,
  `Report;of;${TIME}\n\nTag;E-101.hot_in;TI-1\nwhat;Inlet °C;Flow\nUnits;°C;m³/h\n${TIME};80,5;No Data\n2026-01-01T00:00Z;81,5;12\n`,
  `{"tag":"E-101","time":"2026-01-01T00:00Z","hotIn":{"value":80,"unit":"Cel"},"coldFlow":null}\n{"sensor":"TI-1","time":"${TIME}","value":"Bad","unit":"m3/h"}\n{"sensor":"E-102.hot_in","time":"2026-01-01T00:00Z","value":1e1,"unit":"K"}\n`,
];

const OPTION_SETS: ReadingOptions[] = [
  OPTIONS,
  { ...OPTIONS, timeZone: 'Europe/Lisbon', mapping: { sensors: { 'TI-1': null, remark: null, note: null } } },
  {
    ...OPTIONS,
    mapping: {
      timeZone: 'Australia/Lord_Howe',
      sensors: { 'TI-1': { tag: 'E-103', sensor: 'coldFlow', unit: 'm3/h' }, remark: null, note: null },
    },
  },
];

const SCRAPS = [
  '"',
  '""',
  ',',
  ';',
  '\t',
  '\n',
  '\r',
  '\r\n',
  '\0',
  '[',
  ']',
  '[[',
  '\ufeff',
  '\ufffd',
  '𝛥',
  '°',
  'NaN',
  '1e999',
  '-',
  '24:00',
  '2026-02-30',
  '+99:99',
  'constructor',
  '__proto__',
  'hot_in[Cel]',
  'sep=;\n',
  ' '.repeat(50),
  'x'.repeat(5_000),
  '{',
  '}',
  '{"value":1,"unit":"Cel"}',
  ':null,',
  '–',
  'm³/h',
  '°C;',
  'Bad',
];

/** Seldom, as each is a megabyte to take apart. */
const LONG_SCRAPS = [
  'y'.repeat(1_100_000),
  ';'.repeat(300_000),
  ',a1'.repeat(100_000),
  '{"a":'.repeat(60_000),
];

type Random = () => number;

function pick<T>(from: readonly T[], random: Random): T {
  return from[Math.floor(random() * from.length)]!;
}

/** A sound file with one to ten damages to its text, then perhaps to its bytes. */
function malformed(random: Random): Buffer {
  let text = pick(SOUND, random);
  const body = text.indexOf('\n') + 1;
  for (let damages = Math.floor(random() ** 3 * 10); damages >= 0; damages--) {
    // Mostly behind the header, as a damaged header ends it all.
    const from = random() < 0.8 ? body : 0;
    const at = from + Math.floor(random() * Math.max(0, text.length - from));
    const dropped = Math.floor(random() ** 3 * 20);
    const scraps = random() < 0.002 ? LONG_SCRAPS : SCRAPS;
    const added = random() < 0.3 ? text.slice(at, at + 40) : pick(scraps, random);
    text = text.slice(0, at) + (random() < 0.8 ? added : '') + text.slice(at + dropped);
  }
  const encoding = pick(['utf8', 'utf8', 'utf8', 'latin1', 'utf16le'] as const, random);
  const isMarked = encoding === 'utf16le' && random() < 0.5;
  const bytes = Buffer.from(isMarked ? `\ufeff${text}` : text, encoding);
  return damagedBytes(random() < 0.15 ? gzipSync(bytes) : bytes, random);
}

function damagedBytes(bytes: Buffer, random: Random): Buffer {
  const damaged = random() < 0.15 ? bytes.subarray(0, Math.floor(random() * bytes.length)) : bytes;
  if (damaged.length === 0 || random() < 0.6) return damaged;
  for (let flips = 0; flips < 3; flips++)
    damaged[Math.floor(random() * damaged.length)] = Math.floor(random() * 256);
  return damaged;
}

/** What holds of every chunk, whatever the file. */
function checkChunk(chunk: ReadingChunk, known: ReadonlySet<string>): void {
  for (let i = 0; i < chunk.length; i++) {
    expect(Number.isSafeInteger(chunk.time[i])).toBe(true);
    expect(known.has(chunk.tags[chunk.tag[i]!]!)).toBe(true);
    const values = SENSORS.map((sensor) => chunk[sensor][i]!).filter((value) => !Number.isNaN(value));
    expect(values.length).toBeGreaterThan(0);
    expect(values.every(Number.isFinite)).toBe(true);
  }
  for (const row of chunk.setAside) {
    expect(SET_ASIDE_REASONS).toContain(row.reason);
    expect(row.line).toBeGreaterThan(0);
    expect(row.text.length).toBeLessThanOrEqual(500);
    expect(row.message).not.toBe('');
  }
  expect(chunk.setAside.length).toBeLessThanOrEqual(chunk.read);
}

type Outcome = 'read' | 'refused' | 'row set aside';

async function outcome(bytes: Buffer, options: ReadingOptions): Promise<Outcome> {
  let setAside = 0;
  try {
    for await (const chunk of readReadings(streamOf(bytes), options)) {
      checkChunk(chunk, options.knownTags);
      setAside += chunk.setAside.length;
    }
    return setAside > 0 ? 'row set aside' : 'read';
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    expect(error.faults.length).toBeGreaterThan(0);
    return 'refused';
  }
}

describe('malformed files', () => {
  it(`${FILES} of them (seeds from ${FIRST_SEED}) are read or refused, and nothing else is ever thrown`, {
    timeout: 300_000,
  }, async () => {
    let longest = 0;
    const outcomes: Record<Outcome, number> = { read: 0, refused: 0, 'row set aside': 0 };
    for (let seed = FIRST_SEED; seed < FIRST_SEED + FILES; seed++) {
      const random = seeded(seed);
      const bytes = malformed(random);
      const options = pick(OPTION_SETS, random);
      const began = performance.now();
      try {
        outcomes[await outcome(Buffer.from(bytes), options)]++;
        await previewOrRefusal(bytes, options);
      } catch (error) {
        throw new Error(`seed ${seed}: ${JSON.stringify(bytes.toString('latin1').slice(0, 300))}`, {
          cause: error,
        });
      }
      longest = Math.max(longest, performance.now() - began);
    }
    expect(longest).toBeLessThan(LONGEST);
    // The damage must be of all sizes, or the test would only ever see one way out.
    expect(Math.min(...Object.values(outcomes))).toBeGreaterThan(FILES / 20);
  });

  it('800 files of random bytes are refused or read', async () => {
    for (let seed = FIRST_SEED; seed < FIRST_SEED + 800; seed++) {
      const random = seeded(seed);
      const bytes = Buffer.from(Array.from({ length: 400 }, () => Math.floor(random() * 256)));
      const start = pick(
        [[], [0x1f, 0x8b, 8, 0], [0xff, 0xfe], [0xfe, 0xff], [0xef, 0xbb, 0xbf], [0x7b]],
        random,
      );
      await outcome(Buffer.concat([Buffer.from(start), bytes]), OPTIONS);
    }
  });
});

async function previewOrRefusal(bytes: Buffer, options: ReadingOptions): Promise<void> {
  try {
    const preview = await previewReadings(streamOf(bytes), options, 5);
    expect(preview.rows.length).toBeLessThanOrEqual(5);
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
  }
}
