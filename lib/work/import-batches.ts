import { AppError } from '@/lib/contract/app-error';
import type { UndoPreview } from '@/lib/contract/replaced-readings';
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
  /** Rows that a later import has changed since: they keep its values. */
  kept: number;
  units: string[];
  isAnalysed: boolean;
};

/**
 * Takes a batch back: what it added is removed, what it replaced is put back; readings changed again since by a later
 * batch keep the later value. Results follow.
 *
 * @throws AppError 'not-found', 'conflict' where it was undone already
 */
export async function undoImport(context: Context, batch: number): Promise<UndoneBatch> {
  await knownBatch(context, batch);
  const change = { actor: context.actor, at: context.now() };
  const undone = await context.store.series.undoBatch(batch, change);
  if (undone === null) throw undoneAlready(await knownBatch(context, batch));
  const { removed, restored, kept, changed } = undone;
  const ids = await unitIds(context.store.entities);
  const units = [...ids].filter(([, id]) => changed.has(id)).map(([tag]) => tag);
  return { batch, removed, restored, kept, units, isAnalysed: await bringUpToDate(context) };
}

/** What undoing a batch would remove, put back and leave alone. @throws AppError 'not-found', 'conflict' as `undoImport` */
export async function previewUndo(context: Context, batch: number): Promise<UndoPreview> {
  const known = await knownBatch(context, batch);
  if (known.undoneAt !== null) throw undoneAlready(known);
  return { batch, file: known.source, ...(await context.store.series.undoPreview(batch)) };
}

function undoneAlready({ id, source, undoneBy, undoneAt }: StoredBatch): AppError {
  const when = new Date(undoneAt!).toISOString();
  const who = undoneBy === null ? '' : ` by ${undoneBy}`;
  return new AppError('conflict', `Import ${id} (${source}) was undone already${who}, ${when}`, [
    {
      field: 'batch',
      message: 'there is nothing left to undo; import the file again to have its readings back',
    },
  ]);
}

async function knownBatch(context: Context, batch: number): Promise<StoredBatch> {
  const known = await findBatch(context.store.entities, batch);
  if (known === null) throw new AppError('not-found', `There is no import ${batch}`);
  return known;
}
