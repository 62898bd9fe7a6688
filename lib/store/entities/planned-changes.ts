import type { Prisma, PrismaClient } from '@/generated/sqlite/client';
import type { PlannedChangeKind, PlannedChangeRecord, PlannedState } from '@/lib/contract/planned';
import type { Making } from './change';

type Row = Prisma.PlannedCleaningModel;
type Changes = Prisma.PlannedCleaningUncheckedUpdateInput;

/** What becomes of a piece of dated work, and why. */
export type PlannedChange = { kind: PlannedChangeKind; reason: string | null };

/** Changes a unit's piece of work and keeps it as it was; its calendar entry gets the next revision. */
export async function changePlanned(
  making: Making,
  { known, tag }: { known: Row; tag: string },
  { data, change }: { data: Changes; change: PlannedChange },
): Promise<void> {
  const { transaction, by } = making;
  const { kind, reason } = change;
  const { id, from, to, state, revision } = known;
  const changedAt = new Date(making.at);
  await transaction.plannedChange.create({
    data: { plannedId: id, from, to, state, kind, changedBy: by, reason, changedAt },
  });
  const changed = await transaction.plannedCleaning.update({
    where: { id },
    data: { ...data, revision: revision + 1, changedAt, changedBy: by, note: reason },
  });
  await making.record({
    subject: 'planned-work',
    name: tag,
    action: kind,
    before: shown(known),
    after: shown(changed),
    note: reason,
  });
}

/** A piece of work as a record shows it. */
function shown({ id, from, to, outage, method, cost, state, cleaningId }: Row) {
  const [start, end] = [from.toISOString(), to.toISOString()];
  return { number: id, from: start, to: end, outage, method, cost, state, cleaning: cleaningId };
}

/** Opens a unit's work again that a cleaning had been recorded for, when that cleaning is withdrawn. */
export async function reopenPlanned(
  making: Making,
  tag: string,
  { cleaningId, reason }: { cleaningId: number; reason: string },
): Promise<void> {
  for (const known of await making.transaction.plannedCleaning.findMany({
    where: { cleaningId },
    orderBy: { id: 'asc' },
  })) {
    const data = { state: 'open' satisfies PlannedState, cleaningId: null };
    await changePlanned(making, { known, tag }, { data, change: { kind: 'opened-again', reason } });
  }
}

/** Every change of dated work by the number of the work, oldest first. */
export async function listPlannedChanges(
  entities: PrismaClient,
): Promise<Map<number, PlannedChangeRecord[]>> {
  const byWork = new Map<number, PlannedChangeRecord[]>();
  for (const row of await entities.plannedChange.findMany({ orderBy: { id: 'asc' } })) {
    const change: PlannedChangeRecord = {
      plannedId: row.plannedId,
      from: row.from.getTime(),
      to: row.to.getTime(),
      state: row.state as PlannedState,
      kind: row.kind as PlannedChangeKind,
      by: row.changedBy,
      reason: row.reason,
      at: row.changedAt.getTime(),
    };
    byWork.set(row.plannedId, [...(byWork.get(row.plannedId) ?? []), change]);
  }
  return byWork;
}
