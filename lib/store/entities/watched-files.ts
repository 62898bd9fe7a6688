import type { PrismaClient } from '@/generated/sqlite/client';

/** One state of a file of a watched folder, taken or refused. */
export type StoredWatchedFile = {
  folder: string;
  name: string;
  bytes: number;
  /** [ms] */
  modifiedAt: number;
  /** SHA-256 of the bytes, in hexadecimal. */
  contentHash: string;
  /** [ms] */
  takenAt: number;
  batchId: number | null;
  /** Why it was refused; null where it was taken. */
  refusal: string | null;
};

type Row = Awaited<ReturnType<PrismaClient['watchedFile']['findFirstOrThrow']>>;

function fromRow({ id: _, ...row }: Row): StoredWatchedFile {
  return {
    ...row,
    bytes: Number(row.bytes),
    modifiedAt: row.modifiedAt.getTime(),
    takenAt: row.takenAt.getTime(),
  };
}

/** The newest state of each file of a folder, by name. */
export async function latestStates(
  entities: PrismaClient,
  folder: string,
): Promise<Map<string, StoredWatchedFile>> {
  const rows = await entities.watchedFile.findMany({
    where: { folder },
    orderBy: [{ takenAt: 'asc' }, { id: 'asc' }],
  });
  return new Map(rows.map((row) => [row.name, fromRow(row)]));
}

/** A file with this content, met before; null where it is new. */
export async function findState(
  entities: PrismaClient,
  state: { folder: string; name: string; contentHash: string },
): Promise<StoredWatchedFile | null> {
  const row = await entities.watchedFile.findUnique({ where: { folder_name_contentHash: state } });
  return row === null ? null : fromRow(row);
}

/** Notes what became of a file; the same content again moves the note. */
export async function noteState(entities: PrismaClient, state: StoredWatchedFile): Promise<void> {
  const { folder, name, contentHash } = state;
  const data = {
    ...state,
    bytes: BigInt(state.bytes),
    modifiedAt: new Date(state.modifiedAt),
    takenAt: new Date(state.takenAt),
  };
  await entities.watchedFile.upsert({
    where: { folder_name_contentHash: { folder, name, contentHash } },
    create: data,
    update: data,
  });
}

/** The latest files of all watched folders, newest first. */
export async function listWatchedFiles(entities: PrismaClient, count: number): Promise<StoredWatchedFile[]> {
  const rows = await entities.watchedFile.findMany({
    orderBy: [{ takenAt: 'desc' }, { id: 'desc' }],
    take: count,
  });
  return rows.map(fromRow);
}

/** The newest batch that stands with exactly this content, read with this mapping; null where there is none. */
export async function findBatchOfContent(
  entities: PrismaClient,
  content: { contentHash: string; mappingName: string | null },
): Promise<number | null> {
  const row = await entities.importBatch.findFirst({
    where: { ...content, undoneAt: null },
    orderBy: { id: 'desc' },
  });
  return row?.id ?? null;
}
