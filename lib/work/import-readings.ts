import type { ImportReport, SetAsideReason } from '@/lib/contract/import-report';
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
  const counts = await context.store.series.importBatch({
    source: file.name,
    at: context.now(),
    chunks: counted(chunks, reasons),
    unitIds: ids,
    check: file.check ?? false,
  });
  return reportOf(file.name, counts, { reasons, ids });
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
    at: context.now(),
    chunks: oneChunk(tag, readings),
    unitIds: ids,
    check: false,
  });
  return reportOf(tag, counts, { reasons: {}, ids });
}

async function* counted(
  chunks: AsyncIterable<ReadingChunk>,
  reasons: Partial<Record<SetAsideReason, number>>,
): AsyncGenerator<ReadingChunk> {
  for await (const chunk of chunks) {
    for (const row of chunk.setAside) reasons[row.reason] = (reasons[row.reason] ?? 0) + 1;
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
