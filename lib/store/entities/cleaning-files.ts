import type { PrismaClient } from '@/generated/sqlite/client';
import type { CleaningFileRecord, KeptFileType } from '@/lib/contract/cleaning-files';

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

export type NewFile = Omit<CleaningFileRecord, 'id' | 'unitId' | 'bytes'> & { content: Uint8Array };

/** Keeps a file with a recorded cleaning; says so where there is none, or where it has as many as are kept. */
export async function saveCleaningFile(
  entities: PrismaClient,
  { content, addedAt, ...file }: NewFile,
  most: number,
): Promise<CleaningFileRecord | 'no-cleaning' | 'full'> {
  return entities.$transaction(async (transaction) => {
    const { cleaningId } = file;
    const cleaning = await transaction.cleaning.findUnique({ where: { id: cleaningId } });
    if (cleaning === null) return 'no-cleaning';
    if ((await transaction.cleaningFile.count({ where: { cleaningId } })) >= most) return 'full';
    const kept = await transaction.cleaningFile.create({
      data: {
        ...file,
        unitId: cleaning.unitId,
        bytes: content.length,
        content: new Uint8Array(content),
        addedAt: new Date(addedAt),
      },
      select: WITHOUT_CONTENT,
    });
    return fromRow(kept);
  });
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
