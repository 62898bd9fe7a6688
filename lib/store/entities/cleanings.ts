import type { Prisma, PrismaClient } from '@/generated/sqlite/client';
import type { CleaningChangeRecord } from '@/lib/contract/cleaning-request';
import type { StoredCleaning } from './events';
import { reopenPlannedIn } from './planned-changes';

type Transaction = Prisma.TransactionClient;
type Row = Prisma.CleaningModel;

/** What a cleaning is, without its number. */
export type CleaningFigures = Omit<StoredCleaning, 'id'>;

/** Who changes a recorded cleaning, when [ms] and why; nobody in particular where the same instant is recorded again. */
export type ChangedBy = { by: string | null; reason: string | null; at: number };

/** Records a cleaning; one already recorded at that instant is brought up to date, and kept as it was beside it. */
export async function saveCleaning(
  entities: PrismaClient,
  cleaning: { unitId: number } & CleaningFigures,
  recordedAt: number,
): Promise<void> {
  await entities.$transaction((transaction) => saveCleaningIn(transaction, cleaning, recordedAt));
}

/** The same within a transaction; gives the number of the cleaning. */
export async function saveCleaningIn(
  transaction: Transaction,
  { unitId, at, ...rest }: { unitId: number } & CleaningFigures,
  recordedAt: number,
): Promise<number> {
  const key = { unitId, at: new Date(at) };
  const known = await transaction.cleaning.findUnique({ where: { unitId_at: key } });
  if (known === null) return (await transaction.cleaning.create({ data: { ...key, ...rest } })).id;
  const isSame = (Object.keys(rest) as (keyof typeof rest)[]).every((name) => rest[name] === known[name]);
  if (isSame) return known.id;
  await keepBefore(transaction, known, { kind: 'corrected', by: null, reason: null, at: recordedAt });
  await transaction.cleaning.update({ where: { id: known.id }, data: rest });
  return known.id;
}

/** What became of a correction: the instant [ms] the cleaning had before it, or why there is none. */
export type Corrected = { before: number } | 'not-found' | 'taken';

/** Corrects a unit's cleaning and keeps it as it was; 'taken' where another of its cleanings was at the new instant. */
export async function correctCleaning(
  entities: PrismaClient,
  { unitId, id }: { unitId: number; id: number },
  { figures, changed }: { figures: Partial<CleaningFigures>; changed: ChangedBy },
): Promise<Corrected> {
  return entities.$transaction(async (transaction) => {
    const known = await transaction.cleaning.findFirst({ where: { id, unitId } });
    if (known === null) return 'not-found';
    const { at, ...rest } = figures;
    if (at !== undefined) {
      const there = await transaction.cleaning.findUnique({
        where: { unitId_at: { unitId, at: new Date(at) } },
      });
      if (there !== null && there.id !== id) return 'taken';
    }
    await keepBefore(transaction, known, { kind: 'corrected', ...changed });
    const data = at === undefined ? rest : { ...rest, at: new Date(at) };
    await transaction.cleaning.update({ where: { id }, data });
    return { before: known.at.getTime() };
  });
}

/**
 * Withdraws a unit's cleaning and keeps it in the history; planned work that it was recorded for is open again. Gives its
 * instant [ms], null where there is none.
 */
export async function withdrawCleaning(
  entities: PrismaClient,
  cleaning: { unitId: number; id: number },
  changed: ChangedBy,
): Promise<number | null> {
  return entities.$transaction((transaction) => withdrawCleaningIn(transaction, cleaning, changed));
}

/** The same within a transaction. */
export async function withdrawCleaningIn(
  transaction: Transaction,
  { unitId, id }: { unitId: number; id: number },
  changed: ChangedBy,
): Promise<number | null> {
  const known = await transaction.cleaning.findFirst({ where: { id, unitId } });
  if (known === null) return null;
  await keepBefore(transaction, known, { kind: 'withdrawn', ...changed });
  await reopenPlannedIn(transaction, id, changed);
  await transaction.cleaning.delete({ where: { id } });
  return known.at.getTime();
}

/** Keeps a cleaning as it was; calendars hold its time and method, so a correction is news to them. */
async function keepBefore(
  transaction: Transaction,
  { id, revision: _, ...asItStood }: Row,
  { kind, by, reason, at }: ChangedBy & Pick<CleaningChangeRecord, 'kind'>,
): Promise<void> {
  await transaction.cleaningChange.create({
    data: { ...asItStood, cleaningId: id, kind, changedBy: by, reason, changedAt: new Date(at) },
  });
  if (kind === 'corrected') {
    const revision = { increment: 1 };
    await transaction.plannedCleaning.updateMany({ where: { cleaningId: id }, data: { revision } });
  }
}

/** A unit's cleanings as they stood before each change, oldest change first. */
export async function listCleaningChanges(
  entities: PrismaClient,
  unitId: number,
): Promise<CleaningChangeRecord[]> {
  const rows = await entities.cleaningChange.findMany({ where: { unitId }, orderBy: { id: 'asc' } });
  return rows.map(({ cleaningId, at, durationMs, method, cost, note, ...change }) => ({
    cleaning: cleaningId,
    at: at.getTime(),
    durationMs,
    method,
    cost,
    note,
    kind: change.kind as CleaningChangeRecord['kind'],
    by: change.changedBy,
    reason: change.reason,
    changedAt: change.changedAt.getTime(),
  }));
}
