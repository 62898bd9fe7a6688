import type { Prisma, PrismaClient } from '@/generated/sqlite/client';
import type { CleaningReason } from '@/lib/contract/plan';
import type { PlannedState } from '@/lib/contract/planned';
import type { Making } from './change';
import { type CleaningFigures, saveCleaning } from './cleanings';
import { changePlanned, type PlannedChange } from './planned-changes';

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

/** Open work, the state of it that somebody saw (null: whichever it is in), and what becomes of it. */
type Asked = { id: number; revision: number | null; change: PlannedChange };

type Changes = Prisma.PlannedCleaningUncheckedUpdateInput;
type Found = { known: Prisma.PlannedCleaningModel; unitId: number; tag: string };

/** False where the work is not open or in another state: somebody else has changed it. Without data nothing is changed. */
async function changeOpen(
  making: Making,
  { id, revision, change }: Asked,
  dataOf: (unit: Found) => Promise<Changes | null> | Changes,
): Promise<boolean> {
  const found = await making.transaction.plannedCleaning.findUnique({
    where: { id },
    include: { unit: { select: { tag: true } } },
  });
  if (found?.state !== 'open' || (revision !== null && found.revision !== revision)) return false;
  const { unit, ...known } = found;
  const data = await dataOf({ known, unitId: known.unitId, tag: unit.tag });
  if (data !== null) await changePlanned(making, { known, tag: unit.tag }, { data, change });
  return true;
}

/** Moves open work; false where somebody else has changed it. */
export function movePlanned(
  making: Making,
  asked: Asked,
  { from, to, outage, cost }: Pick<StoredPlanned, 'from' | 'to' | 'outage' | 'cost'>,
): Promise<boolean> {
  return changeOpen(making, asked, () => ({ from: new Date(from), to: new Date(to), outage, cost }));
}

/** Calls open work off; false where somebody else has changed it. */
export function callOffPlanned(making: Making, asked: Asked): Promise<boolean> {
  return changeOpen(making, asked, () => ({ state: 'called-off' satisfies PlannedState }));
}

/** Why work was not tied to a cleaning: somebody else changed it, or the cleaning is there already or belongs to other work. */
export type NotDone = 'not-open' | { recorded: number } | 'claimed';

/** Cleanings of a unit nearer than this are the same [ms]: forms state times to the minute. */
const SAME_CLEANING_MS = 60_000;

/** Records the cleaning that open work was and ties the two; gives its number, or why not. */
export async function finishPlanned(
  making: Making,
  asked: Asked,
  figures: CleaningFigures,
): Promise<number | NotDone> {
  let outcome: number | NotDone = 'not-open';
  await changeOpen(making, asked, async ({ unitId, tag }) => {
    const near = { gt: new Date(figures.at - SAME_CLEANING_MS), lt: new Date(figures.at + SAME_CLEANING_MS) };
    const known = await making.transaction.cleaning.findFirst({
      where: { unitId, at: near },
      orderBy: { at: 'asc' },
    });
    if (known !== null) {
      outcome = (await isClaimed(making, known.id)) ? 'claimed' : { recorded: known.id };
      return null;
    }
    const cleaningId = await saveCleaning(making, { unitId, tag }, figures);
    outcome = cleaningId;
    return { state: 'done' satisfies PlannedState, cleaningId };
  });
  return outcome;
}

/** Ties open work to a cleaning that is recorded already, which can be that of one piece only; gives its number, or why not. */
export async function linkPlanned(
  making: Making,
  asked: Asked,
  cleaningId: number,
): Promise<number | NotDone> {
  let outcome: number | NotDone = 'not-open';
  await changeOpen(making, asked, async ({ unitId }) => {
    const isThere = (await making.transaction.cleaning.count({ where: { id: cleaningId, unitId } })) > 0;
    if (!isThere) return null;
    const isTaken = await isClaimed(making, cleaningId);
    outcome = isTaken ? 'claimed' : cleaningId;
    return isTaken ? null : { state: 'done' satisfies PlannedState, cleaningId };
  });
  return outcome;
}

async function isClaimed({ transaction }: Making, cleaningId: number): Promise<boolean> {
  return (await transaction.plannedCleaning.count({ where: { cleaningId } })) > 0;
}
