import { createWriteStream } from 'node:fs';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { createGzip } from 'node:zlib';

/** Units of the plant whose readings the files hold. */
export const TAGS = Array.from({ length: 20 }, (_, i) => `E-${101 + i}`);
export const COLUMNS = [
  'hot_in[Cel]',
  'hot_out[Cel]',
  'cold_in[Cel]',
  'cold_out[Cel]',
  'hot_flow[kg/s]',
  'cold_flow[kg/s]',
  'hot_dp[kPa]',
  'cold_dp[kPa]',
] as const;

const FROM = Date.UTC(2015, 0, 1);
const MS_PER_HOUR = 3_600_000;
/** Mean, swing over the day and scatter of each column, and the decimals it is written with: a crude preheater. */
const SHAPES = [
  [250, 3, 0.5, 2],
  [190, 2, 0.5, 2],
  [140, 2, 0.3, 2],
  [180, 2, 0.4, 2],
  [55, 2, 0.4, 3],
  [80, 3, 0.6, 3],
  [60, 2, 0.7, 2],
  [45, 2, 0.6, 2],
] as const;

export type FileSize = { rows: number; layout: 'canonical' | 'plant-wide' };

/** Writes hourly readings of the plant, ten years and more of each unit at 2 million rows; gzipped where its name says so. */
export async function writeReadings(path: string, size: FileSize): Promise<void> {
  const text = Readable.from(size.layout === 'canonical' ? canonical(size.rows) : plantWide(size.rows));
  if (path.endsWith('.gz')) await pipeline(text, createGzip({ level: 6 }), createWriteStream(path));
  else await pipeline(text, createWriteStream(path));
}

function* canonical(rows: number): Generator<string> {
  yield `tag,time,${COLUMNS.join(',')}\n`;
  const hours = Math.floor(rows / TAGS.length);
  for (const [unit, tag] of TAGS.entries()) {
    const draw = drawing(unit);
    yield* inBatches(hours, (hour) => `${tag},${timeOf(hour)},${valuesAt(hour, draw)}\n`);
  }
}

function* plantWide(rows: number): Generator<string> {
  yield `time,${TAGS.flatMap((tag) => COLUMNS.map((column) => `${tag}.${column}`)).join(',')}\n`;
  const draws = TAGS.map((_, unit) => drawing(unit));
  yield* inBatches(
    Math.floor(rows / TAGS.length),
    (hour) => `${timeOf(hour)},${draws.map((draw) => valuesAt(hour, draw)).join(',')}\n`,
  );
}

function* inBatches(lines: number, write: (line: number) => string): Generator<string> {
  for (let from = 0; from < lines; from += 1000) {
    let text = '';
    for (let line = from; line < Math.min(lines, from + 1000); line++) text += write(line);
    yield text;
  }
}

function timeOf(hour: number): string {
  return `${new Date(FROM + hour * MS_PER_HOUR).toISOString().slice(0, 19)}Z`;
}

function valuesAt(hour: number, draw: () => number): string {
  const swing = Math.sin((hour * Math.PI) / 12);
  return SHAPES.map(([mean, daily, scatter, decimals]) =>
    (mean + daily * swing + scatter * (draw() - 0.5)).toFixed(decimals),
  ).join(',');
}

/** Numbers from 0 up to 1 (mulberry32). */
function drawing(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
