import type { Prisma, PrismaClient } from '@/generated/sqlite/client';
import type { CleaningChangeRecord } from '@/lib/contract/cleaning-request';
import { DAY_MS } from '@/lib/time/calendar-day';
import type { Making } from './change';
import type { StoredCleaning } from './events';
import { reopenPlanned } from './planned-changes';

type Row = Prisma.CleaningModel;

/** What a cleaning is, without its number. */
export type CleaningFigures = Omit<StoredCleaning, 'id' | 'revision'>;

/** The unit that something is recorded of. */
export type OfUnit = { unitId: number; tag: string };

/** A cleaning by its number, and the state of it that somebody saw; null: whichever it is in. */
export type KnownCleaning = OfUnit & { id: number; revision: number | null };

/** Why a cleaning is not changed: there is none, it is in another state, another one was at the new instant. */
export type NotChanged = 'not-found' | 'superseded' | 'taken';

/** Records a cleaning and gives its number; one already recorded at that instant is brought up to date, and kept as it was. */
export async function saveCleaning(making: Making, unit: OfUnit, figures: CleaningFigures): Promise<number> {
  const { unitId, tag } = unit;
  const { at, ...rest } = figures;
  const key = { unitId, at: new Date(at) };
  const known = await making.transaction.cleaning.findUnique({ where: { unitId_at: key } });
  // The day of the cleaning is judged anew, whichever zone it is in.
  await making.markDue(unitId, at - DAY_MS);
  if (known === null) {
    const { id } = await making.transaction.cleaning.create({ data: { ...key, ...rest } });
    await making.record({
      subject: 'cleaning',
      name: tag,
      action: 'added',
      after: shown({ id, ...figures }),
    });
    return id;
  }
  const isSame = (Object.keys(rest) as (keyof typeof rest)[]).every((name) => rest[name] === known[name]);
  if (!isSame) await change(making, tag, { known, figures: rest, by: null, reason: null });
  return known.id;
}

/** The cleaning of a unit at an instant [ms]; null where none is recorded. */
export async function cleaningAt({ transaction }: Making, unitId: number, at: number): Promise<Row | null> {
  return transaction.cleaning.findUnique({ where: { unitId_at: { unitId, at: new Date(at) } } });
}

/** Corrects a unit's cleaning and keeps it as it was. Gives why not, null where it was. */
export async function correctCleaning(
  making: Making,
  { unitId, tag, id, revision }: KnownCleaning,
  { figures, reason }: { figures: Partial<CleaningFigures>; reason: string },
): Promise<NotChanged | null> {
  const known = await making.transaction.cleaning.findFirst({ where: { id, unitId } });
  if (known === null) return 'not-found';
  if (revision !== null && known.revision !== revision) return 'superseded';
  if (figures.at !== undefined) {
    const there = await cleaningAt(making, unitId, figures.at);
    if (there !== null && there.id !== id) return 'taken';
  }
  const before = known.at.getTime();
  await change(making, tag, { known, figures, by: making.by, reason });
  await making.markDue(unitId, Math.min(before, figures.at ?? before) - DAY_MS);
  return null;
}

/**
 * Withdraws a unit's cleaning and keeps it in the history; planned work that it was recorded for is open again. Gives why not,
 * null where it was.
 */
export async function withdrawCleaning(
  making: Making,
  { unitId, tag, id, revision }: KnownCleaning,
  reason: string,
): Promise<Exclude<NotChanged, 'taken'> | null> {
  const known = await making.transaction.cleaning.findFirst({ where: { id, unitId } });
  if (known === null) return 'not-found';
  if (revision !== null && known.revision !== revision) return 'superseded';
  await keepBefore(making, known, { kind: 'withdrawn', by: making.by, reason });
  await reopenPlanned(making, tag, { cleaningId: id, reason });
  await making.transaction.cleaning.delete({ where: { id } });
  await making.record({
    subject: 'cleaning',
    name: tag,
    action: 'withdrawn',
    before: shown({ ...known, at: known.at.getTime() }),
    note: reason,
  });
  await making.markDue(unitId, known.at.getTime() - DAY_MS);
  return null;
}

type Correction = {
  known: Row;
  figures: Partial<CleaningFigures>;
  /** Nobody in particular where the same instant is recorded again. */
  by: string | null;
  reason: string | null;
};

async function change(
  making: Making,
  tag: string,
  { known, figures, by, reason }: Correction,
): Promise<void> {
  await keepBefore(making, known, { kind: 'corrected', by, reason });
  const { at, ...rest } = figures;
  const data = { ...rest, ...(at === undefined ? {} : { at: new Date(at) }), revision: { increment: 1 } };
  await making.transaction.cleaning.update({ where: { id: known.id }, data });
  const before = { ...known, at: known.at.getTime() };
  await making.record({
    subject: 'cleaning',
    name: tag,
    action: 'changed',
    before: shown(before),
    after: shown({ ...before, ...figures }),
    note: reason,
  });
}

/** A cleaning as a record shows it. */
function shown({ id, at, method, cost, durationMs, note }: { id: number } & CleaningFigures) {
  const duration = durationMs === null ? null : { value: durationMs / 1000, unit: 's' };
  return { number: id, at: new Date(at).toISOString(), method, cost, duration, note };
}

type Kept = { kind: CleaningChangeRecord['kind']; by: string | null; reason: string | null };

/** Keeps a cleaning as it was; calendars hold its time and method, so a correction is news to them. */
async function keepBefore(
  { transaction, at }: Making,
  { id, revision: _, ...asItStood }: Row,
  { kind, by, reason }: Kept,
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
