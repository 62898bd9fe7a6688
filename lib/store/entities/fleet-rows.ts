import type { PrismaClient } from '@/generated/sqlite/client';
import { MOST_PARAMETERS } from './units';

/** What lists of the whole fleet read: never the records themselves. Instants are ms since 1970. */
export type StoredSummary = {
  unitId: number;
  asOf: number | null;
  computedAt: number;
  methodVersion: number;
  /** JSON; null in results of before it was kept. */
  summary: string | null;
};

/** The summaries of some units' results, or of all. */
export async function fleetSummaries(
  entities: PrismaClient,
  unitIds: readonly number[] | null,
): Promise<StoredSummary[]> {
  const select = { unitId: true, asOf: true, computedAt: true, methodVersion: true, summary: true } as const;
  const rows = await inParts(unitIds, (part) =>
    entities.unitResult.findMany({ select, ...(part === null ? {} : { where: { unitId: { in: part } } }) }),
  );
  return rows.map(({ asOf, computedAt, ...row }) => ({
    ...row,
    asOf: asOf === null ? null : asOf.getTime(),
    computedAt: computedAt.getTime(),
  }));
}

/** When results were made that are not older than an instant, by unit. */
export async function resultsMadeSince(entities: PrismaClient, from: number): Promise<Map<number, number>> {
  const rows = await entities.unitResult.findMany({
    where: { computedAt: { gte: new Date(from) } },
    select: { unitId: true, computedAt: true },
  });
  return new Map(rows.map(({ unitId, computedAt }) => [unitId, computedAt.getTime()]));
}

/** Cleanings not older than an instant, by unit, oldest first: of some units, or of all. */
export async function cleaningsSince(
  entities: PrismaClient,
  from: number,
  unitIds: readonly number[] | null,
): Promise<Map<number, { at: number; method: string | null }[]>> {
  const rows = await inParts(unitIds, (part) =>
    entities.cleaning.findMany({
      where: { at: { gte: new Date(from) }, ...(part === null ? {} : { unitId: { in: part } }) },
      select: { unitId: true, at: true, method: true },
      orderBy: [{ at: 'asc' }, { id: 'asc' }],
    }),
  );
  const byUnit = new Map<number, { at: number; method: string | null }[]>();
  for (const { unitId, at, method } of rows) {
    const known = byUnit.get(unitId);
    if (known === undefined) byUnit.set(unitId, [{ at: at.getTime(), method }]);
    else known.push({ at: at.getTime(), method });
  }
  return byUnit;
}

/** Number of the newest record of a change; 0 before the first. */
export async function newestChange(entities: PrismaClient): Promise<number> {
  const row = await entities.changeRecord.findFirst({ orderBy: { id: 'desc' }, select: { id: true } });
  return row?.id ?? 0;
}

/** What was changed after a record of a change, the oldest first; more than `most` are not all told. */
export async function changedAfter(
  entities: PrismaClient,
  id: number,
  most: number,
): Promise<{ subject: string; name: string }[]> {
  const rows = await entities.changeRecord.findMany({
    where: { id: { gt: id } },
    select: { subject: true, subjectName: true },
    orderBy: { id: 'asc' },
    take: most,
  });
  return rows.map(({ subject, subjectName }) => ({ subject, name: subjectName }));
}

async function inParts<Key, Row>(
  keys: readonly Key[] | null,
  read: (part: Key[] | null) => Promise<Row[]>,
): Promise<Row[]> {
  if (keys === null) return read(null);
  const rows: Row[] = [];
  for (let from = 0; from < keys.length; from += MOST_PARAMETERS)
    rows.push(...(await read(keys.slice(from, from + MOST_PARAMETERS))));
  return rows;
}

/** Of which state the data are that pages show: another text after every change of them. */
export async function dataRevision(entities: PrismaClient): Promise<string> {
  const rows = await entities.dataRevision.findMany({ orderBy: { name: 'asc' } });
  return rows.map(({ name, number }) => `${name}${number}`).join(' ');
}

/** Units whose results are older than their readings, cleanings or datasheet. */
export async function dueCount(entities: PrismaClient): Promise<number> {
  return entities.unitDue.count();
}

/** Instant of the newest reading that any result knows [ms]: an old record is judged as of its end. */
export async function newestResult(entities: PrismaClient): Promise<number | null> {
  const { _max } = await entities.unitResult.aggregate({ _max: { asOf: true } });
  return _max.asOf?.getTime() ?? null;
}
