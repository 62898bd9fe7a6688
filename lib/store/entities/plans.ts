import type { Prisma, PrismaClient } from '@/generated/sqlite/client';
import type { PlanRequest, PlanResult } from '@/lib/contract/plan';
import type { PlannedState } from '@/lib/contract/planned';
import type { Making } from './change';
import { nearestPairs } from './nearest-pairs';
import type { StoredPlanned } from './planned';
import { changePlanned } from './planned-changes';

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

/**
 * A plan, its work, and the units it speaks for: open work of theirs that it no longer holds is called off. `after` is the newest
 * plan that whoever accepts this one has seen, 0 where there was none; null where nobody says.
 */
export type NewPlan = {
  plan: Pick<StoredPlan, 'note' | 'request' | 'result'>;
  work: NewWork[];
  units: { id: number; tag: string }[];
  after: number | null;
};

/** Takes a plan on in place of the one before; gives its number, or null where a newer one has been accepted since. */
export async function savePlan(
  making: Making,
  { plan, work, units, after }: NewPlan,
): Promise<number | null> {
  const { transaction } = making;
  if (after !== null && (await isReplaced(making, plan.request.site, after))) return null;
  const { id } = await transaction.cleaningPlan.create({
    data: {
      acceptedAt: new Date(making.at),
      acceptedBy: making.by,
      note: plan.note,
      request: JSON.stringify(plan.request),
      result: JSON.stringify(plan.result),
    },
  });
  await recordPlan(making, id, { plan, work });
  const open = (await transaction.plannedCleaning.findMany({
    where: { state: 'open' },
    orderBy: [{ from: 'asc' }, { id: 'asc' }],
  })) satisfies OpenRow[];
  for (const unit of units) {
    const own = <Row extends { unitId: number }>(rows: Row[]) => rows.filter((row) => row.unitId === unit.id);
    await replaceWork({ making, tag: unit.tag, planId: id }, own(open), own(work));
  }
  return id;
}

/** Whether a plan for a site, or for all of them, was accepted after the one that was seen. */
async function isReplaced(
  { transaction }: Making,
  site: string | undefined,
  after: number,
): Promise<boolean> {
  const newer = await transaction.cleaningPlan.findMany({
    where: { id: { gt: after } },
    select: { request: true },
  });
  const sites = newer.map(({ request }) => (JSON.parse(request) as PlanRequest).site);
  return sites.some((other) => other === site || other === undefined || site === undefined);
}

async function recordPlan(
  making: Making,
  plan: number,
  { plan: { request, result, note }, work }: Pick<NewPlan, 'plan' | 'work'>,
): Promise<void> {
  await making.record({
    subject: 'plan',
    name: request.site ?? 'all sites',
    action: 'accepted',
    after: {
      plan,
      cleanings: work.length,
      from: result.from,
      to: result.to,
      cost: result.cost,
      currency: result.currency,
      clashes: result.clashes.length,
    },
    note,
  });
}

type Taken = { making: Making; tag: string; planId: number };

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
    const reason = `no longer in the plan (plan ${taken.planId})`;
    await changeIn(taken, dropped, { data, change: { kind: 'called-off', reason } });
  }
}

function changeIn({ making, tag }: Taken, known: OpenRow, change: Parameters<typeof changePlanned>[2]) {
  return changePlanned(making, { known, tag }, change);
}

async function add({ making, planId }: Taken, piece: NewWork): Promise<void> {
  await making.transaction.plannedCleaning.create({
    data: {
      ...piece,
      planId,
      from: new Date(piece.from),
      to: new Date(piece.to),
      revision: 0,
      state: 'open' satisfies PlannedState,
      changedAt: new Date(making.at),
      changedBy: making.by,
    },
  });
}

/** The same hours as before: nothing is new to a calendar unless the outage or the method changed. */
async function keep({ making, planId }: Taken, before: OpenRow, piece: NewWork): Promise<void> {
  const { calendarId: _new, from: _from, to: _to, ...data } = piece;
  const isSame = before.outage === piece.outage && before.method === piece.method;
  const revision = before.revision + (isSame ? 0 : 1);
  await making.transaction.plannedCleaning.update({
    where: { id: before.id },
    data: { ...data, planId, revision },
  });
}

async function move(taken: Taken, before: OpenRow, piece: NewWork): Promise<void> {
  const { calendarId: _new, from, to, ...rest } = piece;
  const data = { ...rest, planId: taken.planId, from: new Date(from), to: new Date(to) };
  const reason = `moved by the plan (plan ${taken.planId})`;
  await changeIn(taken, before, { data, change: { kind: 'moved', reason } });
}
