import type { SetAsideRow } from '@/lib/contract/import-report';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';

/**
 * A stretch of a readings file as columns of equal length: row i is the reading of unit `tags[tag[i]]` at `time[i]`.
 * Values are SI (temperatures °C, flows kg/s or m³/s by `flowBasis`, pressure drops Pa); NaN = not in this file,
 * which leaves a stored value as it is.
 */
export type ReadingChunk = Record<Sensor, Float64Array> & {
  length: number;
  /** Every tag met so far in this file; grows from chunk to chunk, the same array each time. */
  tags: readonly string[];
  tag: Int32Array;
  /** [ms] */
  time: Float64Array;
  /** Bits of `reading-columns`: HOT_FLOW_IS_VOLUME, COLD_FLOW_IS_VOLUME; meaningful where that flow is not NaN. */
  flowBasis: Uint8Array;
  /** Line of the file each row came from, the header being line 1. */
  line: Int32Array;
  /** Rows of this stretch that could not be read. */
  setAside: SetAsideRow[];
  /** Cells of this stretch that hold a status word instead of a value, by word; of a file's words the first 20 are told. */
  statusCells: { total: number; byWord: Map<string, number> };
  /** Data rows of this stretch, read or set aside. */
  read: number;
};

/** Rows of a chunk: large enough to amortise calls, small enough to bound memory. */
export const CHUNK_ROWS = 8192;

export function makeReadingChunk(tags: readonly string[], capacity: number): ReadingChunk {
  const chunk = {
    length: 0,
    tags,
    tag: new Int32Array(capacity),
    time: new Float64Array(capacity),
    flowBasis: new Uint8Array(capacity),
    line: new Int32Array(capacity),
    setAside: [],
    statusCells: { total: 0, byWord: new Map() },
    read: 0,
  } as unknown as ReadingChunk;
  for (const sensor of SENSORS) chunk[sensor] = new Float64Array(capacity).fill(Number.NaN);
  return chunk;
}
