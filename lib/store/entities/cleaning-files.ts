import type { PrismaClient } from '@/generated/sqlite/client';
import type { CleaningFileRecord, KeptFileType } from '@/lib/contract/cleaning-files';
import type { Making } from './change';

const WITHOUT_CONTENT = {
  id: true,
  unitId: true,
  cleaningId: true,
  name: true,
  type: true,
  bytes: true,
  addedBy: true,
  addedAt: true,
} as const;

type Row = Omit<CleaningFileRecord, 'type' | 'addedAt'> & { type: string; addedAt: Date };

function fromRow({ type, addedAt, ...rest }: Row): CleaningFileRecord {
  return { ...rest, type: type as KeptFileType, addedAt: addedAt.getTime() };
}

/** Files kept with cleanings, the first one first, without their content. */
export async function listCleaningFiles(
  entities: PrismaClient,
  where: { unitId?: number } = {},
): Promise<CleaningFileRecord[]> {
  const rows = await entities.cleaningFile.findMany({
    where,
    select: WITHOUT_CONTENT,
    orderBy: { id: 'asc' },
  });
  return rows.map(fromRow);
}

export type NewFile = Pick<CleaningFileRecord, 'cleaningId' | 'name' | 'type'> & { content: Uint8Array };

/** Keeps a file with a recorded cleaning; says so where there is none, or where it has as many as are kept. */
export async function saveCleaningFile(
  making: Making,
  { content, ...file }: NewFile,
  most: number,
): Promise<CleaningFileRecord | 'no-cleaning' | 'full'> {
  const { transaction, by, at } = making;
  const { cleaningId, name, type } = file;
  const cleaning = await transaction.cleaning.findUnique({
    where: { id: cleaningId },
    include: { unit: { select: { tag: true } } },
  });
  if (cleaning === null) return 'no-cleaning';
  if ((await transaction.cleaningFile.count({ where: { cleaningId } })) >= most) return 'full';
  const bytes = content.length;
  const kept = await transaction.cleaningFile.create({
    data: {
      ...file,
      unitId: cleaning.unitId,
      bytes,
      content: new Uint8Array(content),
      addedBy: by,
      addedAt: new Date(at),
    },
    select: WITHOUT_CONTENT,
  });
  const after = { name, type, bytes, cleaning: cleaningId, cleanedAt: cleaning.at.toISOString() };
  await making.record({ subject: 'file', name: cleaning.unit.tag, action: 'added', after });
  return fromRow(kept);
}

/** A file with its content; null where there is none of that number. */
export async function findCleaningFile(
  entities: PrismaClient,
  id: number,
): Promise<(CleaningFileRecord & { content: Uint8Array }) | null> {
  const row = await entities.cleaningFile.findUnique({ where: { id } });
  if (row === null) return null;
  const { content, ...file } = row;
  return { ...fromRow(file), content };
}
