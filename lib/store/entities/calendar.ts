import type { PrismaClient } from '@/generated/sqlite/client';
import type { StoredOutage } from './events';

/** When a site can be cleaned; pairs are of numbers of units. */
export type StoredCalendar = {
  outages: Omit<StoredOutage, 'id' | 'siteId'>[];
  crewHoursPerWeek: number | null;
  pairs: [number, number][];
};

/** Puts a site's calendar in the place of the one before, outages that have ended among it. */
export async function saveCalendar(
  entities: PrismaClient,
  siteId: number,
  { outages, crewHoursPerWeek, pairs }: StoredCalendar,
): Promise<void> {
  const rows = outages.map((outage) => ({
    ...outage,
    siteId,
    from: new Date(outage.from),
    to: new Date(outage.to),
  }));
  await entities.$transaction([
    entities.site.update({ where: { id: siteId }, data: { crewHoursPerWeek } }),
    entities.outage.deleteMany({ where: { siteId } }),
    entities.outage.createMany({ data: rows }),
    entities.unitPair.deleteMany({ where: { first: { siteId } } }),
    entities.unitPair.createMany({ data: pairs.map(([firstId, secondId]) => ({ firstId, secondId })) }),
  ]);
}

/** Hours of work a week outside outages, by site; null where there is no crew for that. */
export async function crewHours(entities: PrismaClient): Promise<Map<number, number | null>> {
  const rows = await entities.site.findMany({ select: { id: true, crewHoursPerWeek: true } });
  return new Map(rows.map((row) => [row.id, row.crewHoursPerWeek]));
}

/** Pairs of tags of which one must run while the other is out. */
export async function listPairs(entities: PrismaClient): Promise<[string, string][]> {
  const rows = await entities.unitPair.findMany({
    select: { first: { select: { tag: true } }, second: { select: { tag: true } } },
    orderBy: [{ firstId: 'asc' }, { secondId: 'asc' }],
  });
  return rows.map(({ first, second }) => [first.tag, second.tag]);
}
