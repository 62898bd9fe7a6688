import type { PrismaClient } from '@/generated/sqlite/client';

export type EarlierBatch = { id: number; read: number; setAside: number };

/** The newest batch of the same bytes that nobody has undone; null where there is none. */
export async function batchOfContent(
  entities: PrismaClient,
  contentHash: string,
): Promise<EarlierBatch | null> {
  return entities.importBatch.findFirst({
    where: { contentHash, undoneAt: null },
    orderBy: { id: 'desc' },
    select: { id: true, read: true, setAside: true },
  });
}
