import type { PrismaClient } from '@/generated/sqlite/client';
import type { MarkKind, MarkRecord } from '@/lib/contract/review';
import type { Making } from './change';

/** Every mark made since an instant [ms], oldest first. */
export async function marksSince(entities: PrismaClient, since: number): Promise<MarkRecord[]> {
  const rows = await entities.reviewMark.findMany({
    where: { createdAt: { gte: new Date(since) } },
    orderBy: { id: 'asc' },
  });
  return rows.map(({ unitId, line, kind, text, givenBy, createdAt }) => ({
    unitId,
    line,
    kind: kind as MarkKind,
    text,
    by: givenBy,
    at: createdAt.getTime(),
  }));
}

/** Writes a mark down; those before it stay. */
export async function addMark(
  making: Making,
  tag: string,
  { unitId, line, kind, text }: Pick<MarkRecord, 'unitId' | 'line' | 'kind' | 'text'>,
): Promise<void> {
  const { transaction, by, at } = making;
  await transaction.reviewMark.create({
    data: { unitId, line, kind, text, givenBy: by, createdAt: new Date(at) },
  });
  await making.record({ subject: 'review', name: tag, action: 'added', after: { line, kind, text } });
}
