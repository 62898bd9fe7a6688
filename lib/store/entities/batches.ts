import type { PrismaClient } from '@/generated/sqlite/client';

export type StoredBatch = {
  id: number;
  source: string;
  createdAt: number;
  read: number;
  added: number;
  replaced: number;
  unchanged: number;
  setAside: number;
  /** When it was undone [ms]; null while it stands. */
  undoneAt: number | null;
  importedBy: string | null;
  undoneBy: string | null;
};

export type StoredRowSetAside = {
  id: number;
  batchId: number;
  line: number;
  text: string;
  reason: string;
  field: string | null;
  message: string;
};

type Row = Awaited<ReturnType<PrismaClient['importBatch']['findUniqueOrThrow']>>;

function fromRow({ contentHash: _, mappingName: _name, ...row }: Row): StoredBatch {
  return { ...row, createdAt: row.createdAt.getTime(), undoneAt: row.undoneAt?.getTime() ?? null };
}

/** The newest import batches, newest first. */
export async function listBatches(entities: PrismaClient, count: number): Promise<StoredBatch[]> {
  const rows = await entities.importBatch.findMany({ orderBy: { id: 'desc' }, take: count });
  return rows.map(fromRow);
}

/** Rows of a batch kept aside, in file order. */
export async function listSetAside(
  entities: PrismaClient,
  batchId: number,
  count: number,
): Promise<StoredRowSetAside[]> {
  return entities.rowSetAside.findMany({
    where: { batchId },
    orderBy: [{ line: 'asc' }, { id: 'asc' }],
    take: count,
  });
}

/** One batch, or null. */
export async function findBatch(entities: PrismaClient, id: number): Promise<StoredBatch | null> {
  const row = await entities.importBatch.findUnique({ where: { id } });
  return row === null ? null : fromRow(row);
}

/** How many rows of a batch were kept aside for each reason, the most frequent first. */
export async function countSetAside(
  entities: PrismaClient,
  batchId: number,
): Promise<{ reason: string; count: number }[]> {
  const rows = await entities.rowSetAside.groupBy({
    by: ['reason'],
    where: { batchId },
    orderBy: { reason: 'asc' },
    _count: true,
  });
  return rows.map(({ reason, _count }) => ({ reason, count: _count })).sort((a, b) => b.count - a.count);
}
