import type { PrismaClient } from '@/generated/sqlite/client';

/** Cleanings and outages: what happened, or will, on the time axis. Instants are ms since 1970. */
export type StoredCleaning = {
  id: number;
  at: number;
  durationMs: number | null;
  method: string | null;
  cost: number | null;
  note: string | null;
  /** Grows with every correction. */
  revision: number;
};

export type StoredOutage = {
  id: number;
  siteId: number;
  name: string;
  from: number;
  to: number;
  /** Hours of work that fit into it; null: as many as needed. */
  crewHours: number | null;
};

export async function listCleanings(entities: PrismaClient, unitId: number): Promise<StoredCleaning[]> {
  return (await allCleanings(entities, { unitId })).get(unitId) ?? [];
}

/** Cleanings by unit, oldest first. */
export async function allCleanings(
  entities: PrismaClient,
  where: { unitId?: number | { in: number[] } } = {},
): Promise<Map<number, StoredCleaning[]>> {
  const rows = await entities.cleaning.findMany({ where, orderBy: [{ at: 'asc' }, { id: 'asc' }] });
  const byUnit = new Map<number, StoredCleaning[]>();
  for (const { unitId, at, ...rest } of rows) {
    byUnit.set(unitId, [...(byUnit.get(unitId) ?? []), { ...rest, at: at.getTime() }]);
  }
  return byUnit;
}

export async function listOutages(entities: PrismaClient): Promise<StoredOutage[]> {
  const rows = await entities.outage.findMany({ orderBy: [{ from: 'asc' }, { id: 'asc' }] });
  return rows.map((row) => ({ ...row, from: row.from.getTime(), to: row.to.getTime() }));
}
