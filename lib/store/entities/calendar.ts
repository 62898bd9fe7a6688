import type { Prisma, PrismaClient } from '@/generated/sqlite/client';
import { changedFields } from '@/lib/contract/changed-fields';
import type { Making } from './change';
import type { StoredOutage } from './events';

/** When a site can be cleaned; pairs are of numbers of units. */
export type StoredCalendar = {
  outages: Omit<StoredOutage, 'id' | 'siteId'>[];
  crewHoursPerWeek: number | null;
  pairs: [number, number][];
};

/** The site whose calendar it is, and the state of it that somebody saw; null: whichever it is in. */
export type KnownCalendar = { id: number; name: string; revision: number | null };

/**
 * Puts a site's calendar in the place of the one before, outages that have ended among it. Gives the new revision, or null where
 * somebody else has changed it.
 */
export async function saveCalendar(
  making: Making,
  { id: siteId, name, revision }: KnownCalendar,
  { outages, crewHoursPerWeek, pairs }: StoredCalendar,
): Promise<number | null> {
  const { transaction } = making;
  const site = await transaction.site.findUniqueOrThrow({ where: { id: siteId } });
  if (revision !== null && site.calendarRevision !== revision) return null;
  const before = await shown(transaction, siteId);
  const next = site.calendarRevision + 1;
  await transaction.site.update({
    where: { id: siteId },
    data: { crewHoursPerWeek, calendarRevision: next },
  });
  await transaction.outage.deleteMany({ where: { siteId } });
  await transaction.outage.createMany({
    data: outages.map((outage) => ({
      ...outage,
      siteId,
      from: new Date(outage.from),
      to: new Date(outage.to),
    })),
  });
  await transaction.unitPair.deleteMany({ where: { first: { siteId } } });
  await transaction.unitPair.createMany({
    data: pairs.map(([firstId, secondId]) => ({ firstId, secondId })),
  });
  const changed = changedFields(before, await shown(transaction, siteId));
  if (Object.keys({ ...changed.before, ...changed.after }).length > 0)
    await making.record({ subject: 'calendar', name, action: 'changed', ...changed });
  return next;
}

/** A calendar as a record shows it: outages by name, pairs by tags. */
async function shown(transaction: Making['transaction'], siteId: number) {
  const { crewHoursPerWeek, outages } = await transaction.site.findUniqueOrThrow({
    where: { id: siteId },
    include: { outages: { orderBy: [{ from: 'asc' }, { id: 'asc' }] } },
  });
  const byName: Record<string, object> = {};
  for (const { name, from, to, crewHours } of outages) {
    byName[`${name} (${from.toISOString().slice(0, 'YYYY-MM-DD'.length)})`] = {
      from: from.toISOString(),
      to: to.toISOString(),
      crewHours,
    };
  }
  const pairs = await listPairs(transaction, { first: { siteId } });
  const notTogether = pairs.map((pair) => [pair.join(' and '), true]);
  return { crewHoursPerWeek, outages: byName, notTogether: Object.fromEntries(notTogether) as object };
}
/** In which state each site's calendar is, by site. */
export async function calendarRevisions(entities: PrismaClient): Promise<Map<number, number>> {
  const rows = await entities.site.findMany({
    select: { id: true, calendarRevision: true },
    orderBy: { id: 'asc' },
  });
  return new Map(rows.map((row) => [row.id, row.calendarRevision]));
}

/** Hours of work a week outside outages, by site; null where there is no crew for that. */
export async function crewHours(entities: PrismaClient): Promise<Map<number, number | null>> {
  const rows = await entities.site.findMany({
    select: { id: true, crewHoursPerWeek: true },
    orderBy: { id: 'asc' },
  });
  return new Map(rows.map((row) => [row.id, row.crewHoursPerWeek]));
}

/** Pairs of tags of which one must run while the other is out. */
export async function listPairs(
  entities: Pick<PrismaClient, 'unitPair'>,
  where: Prisma.UnitPairWhereInput = {},
): Promise<[string, string][]> {
  const rows = await entities.unitPair.findMany({
    where,
    select: { first: { select: { tag: true } }, second: { select: { tag: true } } },
    orderBy: [{ firstId: 'asc' }, { secondId: 'asc' }],
  });
  return rows.map(({ first, second }) => [first.tag, second.tag]);
}
