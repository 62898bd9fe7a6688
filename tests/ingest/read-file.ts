import type { SetAsideRow } from '@/lib/contract/import-report';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import { readReadings } from '@/lib/ingest/read-readings';
import type { ReadingChunk } from '@/lib/ingest/reading-chunk';
import type { ReadingOptions } from '@/lib/ingest/reading-format';

export const OPTIONS: ReadingOptions = {
  knownTags: new Set(['E-101', 'E-102', 'E-103']),
  mapping: null,
  timeZone: null,
};

export const HEADER =
  'tag,time,hot_in[Cel],hot_out[Cel],cold_in[Cel],cold_out[Cel],hot_flow[kg/s],cold_flow[m3/h],hot_dp[kPa],cold_dp[kPa]';

export type Row = Partial<Record<Sensor, number>> & { tag: string; time: string; line: number };

/** A file as a stream of one piece, or of the pieces given. */
export async function* streamOf(...pieces: (string | Uint8Array)[]): AsyncGenerator<Uint8Array> {
  for (const piece of pieces) yield typeof piece === 'string' ? Buffer.from(piece) : piece;
}

/** Rows of a chunk as objects, without what was not measured. */
export function rowsOf(chunk: ReadingChunk): Row[] {
  return Array.from({ length: chunk.length }, (_, i) => {
    const row: Row = {
      tag: chunk.tags[chunk.tag[i]!]!,
      time: new Date(chunk.time[i]!).toISOString(),
      line: chunk.line[i]!,
    };
    for (const sensor of SENSORS) if (!Number.isNaN(chunk[sensor][i])) row[sensor] = chunk[sensor][i]!;
    return row;
  });
}

export type ReadFile = { rows: Row[]; bases: number[]; setAside: SetAsideRow[]; read: number };

/** Reads a whole file. */
export async function readFile(
  file: string | Uint8Array | AsyncIterable<Uint8Array>,
  options: Partial<ReadingOptions> = {},
): Promise<ReadFile> {
  const source = typeof file === 'string' || file instanceof Uint8Array ? streamOf(file) : file;
  const whole: ReadFile = { rows: [], bases: [], setAside: [], read: 0 };
  for await (const chunk of readReadings(source, { ...OPTIONS, ...options })) {
    whole.rows.push(...rowsOf(chunk));
    whole.bases.push(...chunk.flowBasis.subarray(0, chunk.length));
    whole.setAside.push(...chunk.setAside);
    whole.read += chunk.read;
  }
  return whole;
}

/** Small seeded generator (mulberry32): numbers from 0 up to 1. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
