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

type Changes = Prisma.PlannedCleaningUncheckedUpdateInput;

/** False where the work is no longer open: somebody else has changed it. Without data nothing is changed. */
async function changeOpen(
  entities: PrismaClient,
  { id, change }: Asked,
  dataOf: (transaction: Transaction, unitId: number) => Promise<Changes | null> | Changes,
): Promise<boolean> {
  return entities.$transaction(async (transaction) => {
    const known = await transaction.plannedCleaning.findUnique({ where: { id } });
    if (known?.state !== 'open') return false;
    const data = await dataOf(transaction, known.unitId);
    if (data !== null) await changePlannedIn(transaction, known, { data, change });
    return true;
  });
}

/** Moves open work; false where it is not open. */
export function movePlanned(
  entities: PrismaClient,
  asked: Asked,
  { from, to, outage, cost }: Pick<StoredPlanned, 'from' | 'to' | 'outage' | 'cost'>,
): Promise<boolean> {
  return changeOpen(entities, asked, () => ({ from: new Date(from), to: new Date(to), outage, cost }));
}

/** Calls open work off; false where it is not open. */
export function callOffPlanned(entities: PrismaClient, asked: Asked): Promise<boolean> {
  return changeOpen(entities, asked, () => ({ state: 'called-off' satisfies PlannedState }));
}

/** Why work was not tied to a cleaning: it is no longer open, or the cleaning is there already or belongs to other work. */
export type NotDone = 'not-open' | { recorded: number } | 'claimed';

/** Cleanings of a unit nearer than this are the same [ms]: forms state times to the minute. */
const SAME_CLEANING_MS = 60_000;

/** Records the cleaning that open work was and ties the two; gives its number, or why not. */
export async function finishPlanned(
  entities: PrismaClient,
  asked: Asked,
  figures: CleaningFigures,
): Promise<number | NotDone> {
  let outcome: number | NotDone = 'not-open';
  await changeOpen(entities, asked, async (transaction, unitId) => {
    const near = { gt: new Date(figures.at - SAME_CLEANING_MS), lt: new Date(figures.at + SAME_CLEANING_MS) };
    const known = await transaction.cleaning.findFirst({ where: { unitId, at: near } });
    if (known !== null) {
      outcome = (await isClaimed(transaction, known.id)) ? 'claimed' : { recorded: known.id };
      return null;
    }
    const cleaningId = await saveCleaningIn(transaction, { unitId, ...figures }, asked.change.at);
    outcome = cleaningId;
    return { state: 'done' satisfies PlannedState, cleaningId };
  });
  return outcome;
}

/** Ties open work to a cleaning that is recorded already, which can be that of one piece only; gives its number, or why not. */
export async function linkPlanned(
  entities: PrismaClient,
  asked: Asked,
  cleaningId: number,
): Promise<number | NotDone> {
  let outcome: number | NotDone = 'not-open';
  await changeOpen(entities, asked, async (transaction) => {
    const isTaken = await isClaimed(transaction, cleaningId);
    outcome = isTaken ? 'claimed' : cleaningId;
    return isTaken ? null : { state: 'done' satisfies PlannedState, cleaningId };
  });
  return outcome;
}

async function isClaimed(transaction: Transaction, cleaningId: number): Promise<boolean> {
  return (await transaction.plannedCleaning.count({ where: { cleaningId } })) > 0;
}
