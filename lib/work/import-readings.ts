import type { ImportReport, SetAsideReason, StatusCells } from '@/lib/contract/import-report';
import type { Mapping } from '@/lib/contract/mapping';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { readReadings } from '@/lib/ingest/read-readings';
import { makeReadingChunk, type ReadingChunk } from '@/lib/ingest/reading-chunk';
import { unitIds } from '@/lib/store/entities/units';
import type { ImportCounts } from '@/lib/store/series/series-store';
import type { Context } from './context';

export type ReadingsFile = {
  name: string;
  source: AsyncIterable<Uint8Array>;
  mapping?: Mapping | null;
  timeZone?: string | null;
  /** True: read and count, store nothing. */
  check?: boolean;
  /** SHA-256 of the bytes as they came, in hexadecimal: kept with the batch. */
  contentHash?: string | null;
  /** Name of the saved mapping that it is read with. */
  mappingName?: string | null;
  /** Told of every piece that was read. */
  onChunk?: (chunk: { read: number; setAside: number }) => void;
};

/**
 * Takes a readings file as one batch: whole or not at all. Rows that cannot be read are kept aside and the rest go in;
 * the same file again changes nothing.
 *
 * @throws AppError when the file as a whole cannot be read (no header, unknown unit of measure)
 */
export async function importReadings(context: Context, file: ReadingsFile): Promise<ImportReport> {
  const ids = await unitIds(context.store.entities);
  const chunks = readReadings(file.source, {
    knownTags: new Set(ids.keys()),
    mapping: file.mapping ?? null,
    timeZone: file.timeZone ?? null,
  });
  const reasons: Partial<Record<SetAsideReason, number>> = {};
  const status: StatusCells = { total: 0, byWord: {} };
  const counts = await context.store.series.importBatch({
    source: file.name,
    mappingName: file.mappingName ?? null,
    contentHash: file.contentHash ?? null,
    ...importer(context),
    chunks: counted(statusCounted(chunks, status), reasons, file.onChunk),
    unitIds: ids,
    check: file.check ?? false,
  });
  const report = reportOf(file.name, counts, { reasons, ids });
  return status.total === 0 ? report : { ...report, statusCells: status };
}

/** Readings already in columns (a generator, a test) as one batch of one unit. */
export async function importColumns(
  context: Context,
  tag: string,
  readings: ReadingColumns,
): Promise<ImportReport> {
  const ids = await unitIds(context.store.entities);
  const counts = await context.store.series.importBatch({
    source: tag,
    ...importer(context),
    chunks: oneChunk(tag, readings),
    unitIds: ids,
    check: false,
  });
  return reportOf(tag, counts, { reasons: {}, ids });
}

function importer(context: Context) {
  return { actor: context.actor, at: context.now() };
}

async function* counted(
  chunks: AsyncIterable<ReadingChunk>,
  reasons: Partial<Record<SetAsideReason, number>>,
  onChunk?: ReadingsFile['onChunk'],
): AsyncGenerator<ReadingChunk> {
  for await (const chunk of chunks) {
    for (const row of chunk.setAside) reasons[row.reason] = (reasons[row.reason] ?? 0) + 1;
    onChunk?.({ read: chunk.read, setAside: chunk.setAside.length });
    yield chunk;
  }
}

async function* statusCounted(
  chunks: AsyncIterable<ReadingChunk>,
  status: StatusCells,
): AsyncGenerator<ReadingChunk> {
  for await (const chunk of chunks) {
    const { total, byWord } = chunk.statusCells;
    status.total += total;
    const known = new Map(Object.entries(status.byWord));
    for (const [word, count] of byWord) known.set(word, (known.get(word) ?? 0) + count);
    status.byWord = Object.fromEntries(known);
    yield chunk;
  }
}

async function* oneChunk(tag: string, readings: ReadingColumns): AsyncGenerator<ReadingChunk> {
  const length = readings.time.length;
  const chunk = makeReadingChunk([tag], 0);
  Object.assign(chunk, { length, read: length, time: readings.time, flowBasis: readings.flowBasis });
  chunk.tag = new Int32Array(length);
  for (const sensor of SENSORS) chunk[sensor] = readings[sensor];
  yield chunk;
}

function reportOf(
  file: string,
  counts: ImportCounts,
  { reasons, ids }: { reasons: ImportReport['setAsideByReason']; ids: Map<string, number> },
): ImportReport {
  const iso = (instant: number | null) => (instant === null ? null : new Date(instant).toISOString());
  return {
    batch: counts.batch,
    file,
    read: counts.read,
    added: counts.added,
    replaced: counts.replaced,
    unchanged: counts.unchanged,
    setAside: counts.setAside,
    setAsideByReason: reasons,
    units: [...ids].filter(([, id]) => counts.changed.has(id)).map(([tag]) => tag),
    firstTime: iso(counts.firstTime),
    lastTime: iso(counts.lastTime),
  };
}
