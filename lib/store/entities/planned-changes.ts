import type { Prisma, PrismaClient } from '@/generated/sqlite/client';
import type { PlannedChangeKind, PlannedChangeRecord, PlannedState } from '@/lib/contract/planned';

type Transaction = Prisma.TransactionClient;
type Row = Prisma.PlannedCleaningModel;
type Changes = Prisma.PlannedCleaningUncheckedUpdateInput;

/** What becomes of a piece of dated work, who says so, when [ms] and why. */
export type PlannedChange = {
  kind: PlannedChangeKind;
  by: string | null;
  reason: string | null;
  at: number;
};

/** Changes a piece of work and keeps it as it was; its calendar entry gets the next revision. */
export async function changePlannedIn(
  transaction: Transaction,
  known: Row,
  { data, change }: { data: Changes; change: PlannedChange },
): Promise<void> {
  const { kind, by, reason, at } = change;
  const { id, from, to, state, revision } = known;
  const changedAt = new Date(at);
  await transaction.plannedChange.create({
    data: { plannedId: id, from, to, state, kind, changedBy: by, reason, changedAt },
  });
  await transaction.plannedCleaning.update({
    where: { id },
    data: { ...data, revision: revision + 1, changedAt, changedBy: by, note: reason },
  });
}

/** Opens the work again that a cleaning had been recorded for, when that cleaning is withdrawn. */
export async function reopenPlannedIn(
  transaction: Transaction,
  cleaningId: number,
  { by, reason, at }: Omit<PlannedChange, 'kind'>,
): Promise<void> {
  for (const known of await transaction.plannedCleaning.findMany({ where: { cleaningId } })) {
    const data = { state: 'open' satisfies PlannedState, cleaningId: null };
    await changePlannedIn(transaction, known, { data, change: { kind: 'opened-again', by, reason, at } });
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
