import type { Prisma, PrismaClient } from '@/generated/sqlite/client';
import type { CleaningReason } from '@/lib/contract/plan';
import type { PlannedState } from '@/lib/contract/planned';
import { type CleaningFigures, saveCleaningIn } from './cleanings';
import { changePlannedIn, type PlannedChange } from './planned-changes';

type Transaction = Prisma.TransactionClient;

/** Dated work with its unit's tag and site. Instants are ms since 1970. */
export type StoredPlanned = {
  id: number;
  planId: number;
  unitId: number;
  tag: string;
  site: string;
  from: number;
  to: number;
  outage: string | null;
  method: string | null;
  crewHours: number;
  cost: number;
  saves: number;
  reason: CleaningReason;
  calendarId: string;
  revision: number;
  state: PlannedState;
  cleaningId: number | null;
  changedAt: number;
  changedBy: string | null;
  note: string | null;
};

const withUnit = { unit: { include: { site: true } } } as const;
type Row = Prisma.PlannedCleaningGetPayload<{ include: typeof withUnit }>;

function fromRow({ unit, from, to, changedAt, reason, state, ...rest }: Row): StoredPlanned {
  return {
    ...rest,
    tag: unit.tag,
    site: unit.site.name,
    from: from.getTime(),
    to: to.getTime(),
    reason: reason as CleaningReason,
    state: state as PlannedState,
    changedAt: changedAt.getTime(),
  };
}

/** Dated work, the earliest first. */
export async function listPlanned(
  entities: PrismaClient,
  where: { state?: PlannedState; unitId?: number } = {},
): Promise<StoredPlanned[]> {
  const orderBy = [{ from: 'asc' }, { id: 'asc' }] as const;
  const rows = await entities.plannedCleaning.findMany({ where, include: withUnit, orderBy: [...orderBy] });
  return rows.map(fromRow);
}

export async function findPlanned(entities: PrismaClient, id: number): Promise<StoredPlanned | null> {
  const row = await entities.plannedCleaning.findUnique({ where: { id }, include: withUnit });
  return row === null ? null : fromRow(row);
}

type Asked = { id: number; change: PlannedChange };

/** False where the work is no longer open: somebody else has changed it. */
async function changeOpen(
  entities: PrismaClient,
  { id, change }: Asked,
  dataOf: (
    transaction: Transaction,
    unitId: number,
  ) => Promise<Prisma.PlannedCleaningUncheckedUpdateInput> | Prisma.PlannedCleaningUncheckedUpdateInput,
): Promise<boolean> {
  return entities.$transaction(async (transaction) => {
    const known = await transaction.plannedCleaning.findUnique({ where: { id } });
    if (known?.state !== 'open') return false;
    const data = await dataOf(transaction, known.unitId);
    await changePlannedIn(transaction, known, { data, change });
    return true;
  });
}

/** Moves open work; false where it is not open. */
export function movePlanned(
  entities: PrismaClient,
  asked: Asked,
  { from, to, outage }: { from: number; to: number; outage: string | null },
): Promise<boolean> {
  return changeOpen(entities, asked, () => ({ from: new Date(from), to: new Date(to), outage }));
}

/** Calls open work off; false where it is not open. */
export function callOffPlanned(entities: PrismaClient, asked: Asked): Promise<boolean> {
  return changeOpen(entities, asked, () => ({ state: 'called-off' satisfies PlannedState }));
}

/** Records the cleaning that open work was and ties the two; gives its number, null where the work is not open. */
export async function finishPlanned(
  entities: PrismaClient,
  asked: Asked,
  figures: CleaningFigures,
): Promise<number | null> {
  let cleaningId: number | null = null;
  await changeOpen(entities, asked, async (transaction, unitId) => {
    cleaningId = await saveCleaningIn(transaction, { unitId, ...figures }, asked.change.at);
    return { state: 'done' satisfies PlannedState, cleaningId };
  });
  return cleaningId;
}

/** Ties open work to a cleaning that is recorded already; false where the work is not open. */
export function linkPlanned(entities: PrismaClient, asked: Asked, cleaningId: number): Promise<boolean> {
  return changeOpen(entities, asked, () => ({ state: 'done' satisfies PlannedState, cleaningId }));
}
