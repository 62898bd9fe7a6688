import { SENSORS } from '@/lib/core/exchange/exchanger';
import type { ReadingChunk } from '@/lib/ingest/reading-chunk';
import { countChunk, type ImportTally } from './import-tally';
import { capacityOf, isAscending, makeRows, type ReadingRows, sortInto } from './reading-rows';
import type { ImportBatch } from './series-store';
import { type Run, SpillFile } from './spill-file';

/** Readings sorted at a time, some 10 MB: enough for several of each unit even where a file goes hour by hour through a plant. */
const RUN_ROWS = 131_072;
const RUN_SET_ASIDE = 16_384;

/** Runs that were put by, to be gone through once, each before the next. */
export type StagedRuns = { runs: AsyncIterable<Run>; close(): Promise<void> };

/**
 * Reads a batch to its end without touching the database: the last run stays in memory, those before it go to a file beside
 * the database, where there is room for them. So nobody waits for a file that comes slowly, and none has to fit into memory.
 *
 * @param most readings of a run
 * @throws Error where a tag has no unit, and whatever reading the file throws
 */
export async function stageRuns(
  path: string,
  batch: ImportBatch,
  tally: ImportTally,
  most = RUN_ROWS,
): Promise<StagedRuns> {
  let last: Run | null = null;
  let file: SpillFile | null = null;
  const builder = new RunBuilder(batch.unitIds, most);
  try {
    for await (const chunk of batch.chunks) {
      countChunk(tally, chunk);
      builder.add(chunk);
      if (!builder.isFull) continue;
      if (last !== null) {
        file ??= await SpillFile.open(path);
        await file.write(last);
      }
      last = builder.take();
    }
    if (last !== null && !builder.isEmpty) {
      file ??= await SpillFile.open(path);
      await file.write(last);
    }
    if (!builder.isEmpty) last = builder.take();
  } catch (error) {
    await file?.close();
    throw error;
  }
  return { runs: inOrder(file, last), close: async () => file?.close() };
}

async function* inOrder(file: SpillFile | null, last: Run | null): AsyncGenerator<Run> {
  if (file !== null) yield* file.read();
  if (last !== null) yield last;
}

/** Runs of a batch in the order of its file, each good until the next: COPY takes them as they come. */
export async function* runsOf(batch: ImportBatch, tally: ImportTally, most = RUN_ROWS): AsyncGenerator<Run> {
  const builder = new RunBuilder(batch.unitIds, most);
  for await (const chunk of batch.chunks) {
    countChunk(tally, chunk);
    builder.add(chunk);
    if (builder.isFull) yield builder.take();
  }
  if (!builder.isEmpty) yield builder.take();
}

/** Gathers chunks and makes runs of them. */
class RunBuilder {
  readonly #unitIds: ReadonlyMap<string, number>;
  readonly #most: number;
  #chunks: ReadingChunk[] = [];
  #length = 0;
  #setAside = 0;
  /** The memory of one run is that of the next: new memory costs more than filling it. */
  #rows = makeRows(0);
  #sorted = makeRows(0);

  constructor(unitIds: ReadonlyMap<string, number>, most: number) {
    this.#unitIds = unitIds;
    this.#most = most;
  }

  add(chunk: ReadingChunk): void {
    this.#chunks.push(chunk);
    this.#length += chunk.length;
    this.#setAside += chunk.setAside.length;
  }

  get isEmpty(): boolean {
    return this.#chunks.length === 0;
  }

  get isFull(): boolean {
    return this.#length >= this.#most || this.#setAside >= RUN_SET_ASIDE;
  }

  /** The run gathered so far; the one before is gone with it. */
  take(): Run {
    if (capacityOf(this.#rows) < this.#length) this.#rows = makeRows(this.#length);
    this.#rows.length = 0;
    for (const chunk of this.#chunks) append(this.#rows, chunk, this.#unitIds);
    const setAside = this.#chunks.flatMap((chunk) => chunk.setAside);
    this.#chunks = [];
    this.#length = 0;
    this.#setAside = 0;
    if (isAscending(this.#rows)) return { rows: this.#rows, setAside };
    if (capacityOf(this.#sorted) < this.#rows.length) this.#sorted = makeRows(capacityOf(this.#rows));
    sortInto(this.#sorted, this.#rows);
    return { rows: this.#sorted, setAside };
  }
}

function append(rows: ReadingRows, chunk: ReadingChunk, unitIds: ReadonlyMap<string, number>): void {
  const at = rows.length;
  const units = chunk.tags.map((tag) => unitIds.get(tag));
  for (let i = 0; i < chunk.length; i++) {
    const unitId = units[chunk.tag[i]!];
    if (unitId === undefined) throw new Error(`no unit for tag ${chunk.tags[chunk.tag[i]!]}`);
    rows.unitId[at + i] = unitId;
  }
  rows.time.set(chunk.time.subarray(0, chunk.length), at);
  rows.flowBasis.set(chunk.flowBasis.subarray(0, chunk.length), at);
  SENSORS.forEach((sensor, s) => {
    rows.values[s]!.set(chunk[sensor].subarray(0, chunk.length), at);
  });
  rows.length += chunk.length;
}
