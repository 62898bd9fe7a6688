import type { Prisma, PrismaClient } from '@/generated/sqlite/client';
import type { PlanRequest, PlanResult } from '@/lib/contract/plan';
import type { PlannedState } from '@/lib/contract/planned';
import { nearestPairs } from './nearest-pairs';
import type { StoredPlanned } from './planned';
import { changePlannedIn } from './planned-changes';

type Transaction = Prisma.TransactionClient;
type OpenRow = Prisma.PlannedCleaningModel;

export type StoredPlan = {
  id: number;
  /** [ms] */
  acceptedAt: number;
  acceptedBy: string;
  note: string | null;
  request: PlanRequest;
  result: PlanResult;
};

/** A piece of work of a plan that is about to be accepted. */
export type NewWork = Pick<
  StoredPlanned,
  'unitId' | 'from' | 'to' | 'outage' | 'method' | 'crewHours' | 'cost' | 'saves' | 'reason' | 'calendarId'
>;

/** The plans in force, the newest first: the newest of each site, up to one made without a site, which counts for all. */
export async function plansInForce(entities: PrismaClient): Promise<StoredPlan[]> {
  // Results are large and requests are not: only results in force are read.
  const asked = await entities.cleaningPlan.findMany({
    select: { id: true, request: true },
    orderBy: { id: 'desc' },
  });
  const sites = asked.map(({ request }) => (JSON.parse(request) as PlanRequest).site);
  const forAll = sites.indexOf(undefined);
  const ids = asked
    .filter((_, index) => sites.indexOf(sites[index]) === index && (forAll < 0 || index <= forAll))
    .map(({ id }) => id);
  const rows = await entities.cleaningPlan.findMany({ where: { id: { in: ids } }, orderBy: { id: 'desc' } });
  return rows.map((row) => ({
    ...row,
    acceptedAt: row.acceptedAt.getTime(),
    request: JSON.parse(row.request) as PlanRequest,
    result: JSON.parse(row.result) as PlanResult,
  }));
}

/** When a plan was accepted [ms]. */
export async function acceptedAt(entities: PrismaClient, id: number): Promise<number> {
  const plan = await entities.cleaningPlan.findUniqueOrThrow({ where: { id }, select: { acceptedAt: true } });
  return plan.acceptedAt.getTime();
}

/** A plan, its work, and the units it speaks for: open work of theirs that it no longer holds is called off. */
export type NewPlan = { plan: Omit<StoredPlan, 'id'>; work: NewWork[]; unitIds: number[] };

/** Takes a plan on in place of the one before: all of it or nothing. Gives its number. */
export async function savePlan(entities: PrismaClient, { plan, work, unitIds }: NewPlan): Promise<number> {
  return entities.$transaction(
    async (transaction) => {
      const { id } = await transaction.cleaningPlan.create({
        data: {
          ...plan,
          acceptedAt: new Date(plan.acceptedAt),
          request: JSON.stringify(plan.request),
          result: JSON.stringify(plan.result),
        },
      });
      const open = (await transaction.plannedCleaning.findMany({
        where: { state: 'open' },
        orderBy: { from: 'asc' },
      })) satisfies OpenRow[];
      const taken = { transaction, plan, planId: id };
      for (const unitId of unitIds) {
        const own = <Row extends { unitId: number }>(rows: Row[]) =>
          rows.filter((row) => row.unitId === unitId);
        await replaceWork(taken, own(open), own(work));
      }
      return id;
    },
    { timeout: 120_000, maxWait: 60_000 },
  );
}

type Taken = { transaction: Transaction; plan: NewPlan['plan']; planId: number };

/** One unit's open work becomes what the plan says: kept where it stays, moved to the nearest, called off or added. */
async function replaceWork(taken: Taken, open: OpenRow[], work: NewWork[]): Promise<void> {
  const rest = [...open];
  const moved: NewWork[] = [];
  for (const piece of work) {
    const at = rest.findIndex(({ from, to }) => from.getTime() === piece.from && to.getTime() === piece.to);
    if (at < 0) moved.push(piece);
    else await keep(taken, rest.splice(at, 1)[0]!, piece);
  }
  moved.sort((one, other) => one.from - other.from);
  const pairs = nearestPairs(
    rest.map(({ from }) => from.getTime()),
    moved.map(({ from }) => from),
  );
  const kept = new Map(pairs.map(([before, after]) => [after, rest[before]!]));
  for (const [index, piece] of moved.entries()) {
    const before = kept.get(index);
    if (before === undefined) await add(taken, piece);
    else await move(taken, before, piece);
  }
  const staying = new Set(kept.values());
  for (const dropped of rest.filter((row) => !staying.has(row))) {
    const data = { state: 'called-off' satisfies PlannedState };
    const change = { kind: 'called-off', ...saidBy(taken, 'no longer in the plan') } as const;
    await changePlannedIn(taken.transaction, dropped, { data, change });
  }
}

function saidBy({ plan, planId }: Taken, what: string) {
  return { by: plan.acceptedBy, reason: `${what} (plan ${planId})`, at: plan.acceptedAt };
}

async function add({ transaction, plan, planId }: Taken, piece: NewWork): Promise<void> {
  const { acceptedAt, acceptedBy } = plan;
  await transaction.plannedCleaning.create({
    data: {
      ...piece,
      planId,
      from: new Date(piece.from),
      to: new Date(piece.to),
      revision: 0,
      state: 'open' satisfies PlannedState,
      changedAt: new Date(acceptedAt),
      changedBy: acceptedBy,
    },
  });
}

/** The same hours as before: nothing is new to a calendar unless the outage or the method changed. */
async function keep({ transaction, planId }: Taken, before: OpenRow, piece: NewWork): Promise<void> {
  const { calendarId: _new, from: _from, to: _to, ...data } = piece;
  const isSame = before.outage === piece.outage && before.method === piece.method;
  const revision = before.revision + (isSame ? 0 : 1);
  await transaction.plannedCleaning.update({ where: { id: before.id }, data: { ...data, planId, revision } });
}

async function move(taken: Taken, before: OpenRow, piece: NewWork): Promise<void> {
  const { calendarId: _new, from, to, ...rest } = piece;
  const data = { ...rest, planId: taken.planId, from: new Date(from), to: new Date(to) };
  const change = { kind: 'moved', ...saidBy(taken, 'moved by the plan') } as const;
  await changePlannedIn(taken.transaction, before, { data, change });
}
