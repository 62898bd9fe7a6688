import { AppError } from '@/lib/contract/app-error';
import {
  findBatch,
  listBatches,
  listSetAside,
  type StoredBatch,
  type StoredRowSetAside,
} from '@/lib/store/entities/batches';
import { unitIds } from '@/lib/store/entities/units';
import type { Context } from './context';
import { bringUpToDate } from './take-readings';

/** Batches a list shows. */
const SHOWN_BATCHES = 50;
/** Rows kept aside of one batch that are given out at once. */
const MOST_ROWS = 100_000;

export async function latestBatches(context: Context): Promise<{ imports: StoredBatch[] }> {
  return { imports: await listBatches(context.store.entities, SHOWN_BATCHES) };
}

/** @throws AppError 'not-found' */
export async function rowsSetAside(
  context: Context,
  batch: number,
): Promise<{ batch: number; file: string; rows: Omit<StoredRowSetAside, 'id' | 'batchId'>[] }> {
  const { source } = await knownBatch(context, batch);
  const rows = await listSetAside(context.store.entities, batch, MOST_ROWS);
  return {
    batch,
    file: source,
    rows: rows.map(({ line, text, reason, field, message }) => ({ line, text, reason, field, message })),
  };
}

export type UndoneBatch = {
  batch: number;
  removed: number;
  restored: number;
  units: string[];
  isAnalysed: boolean;
};

/**
 * Takes a batch back: what it added is removed, what it replaced is put back; readings changed again since by a later
 * batch keep the later value. Results follow.
 *
 * @throws AppError 'not-found'
 */
export async function undoImport(context: Context, batch: number): Promise<UndoneBatch> {
  await knownBatch(context, batch);
  const { removed, restored, changed } = await context.store.series.undoBatch(batch, context.now());
  const ids = await unitIds(context.store.entities);
  const units = [...ids].filter(([, id]) => changed.has(id)).map(([tag]) => tag);
  return { batch, removed, restored, units, isAnalysed: await bringUpToDate(context) };
}

async function knownBatch(context: Context, batch: number): Promise<StoredBatch> {
  const known = await findBatch(context.store.entities, batch);
  if (known === null) throw new AppError('not-found', `There is no import ${batch}`);
  return known;
}
