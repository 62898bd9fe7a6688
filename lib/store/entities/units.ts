import type { PrismaClient } from '@/generated/sqlite/client';
import type { Site, Unit } from '@/lib/contract/fleet-file';

export type StoredSite = Site & { id: number };
export type StoredUnit = {
  id: number;
  tag: string;
  site: StoredSite;
  unit: Unit;
  version: number;
  /** Since when this version of the datasheet stands [ms]. */
  versionSince: number;
};

type Entities = PrismaClient;

/** A statement takes so many parameters at once on every database. */
export const MOST_PARAMETERS = 500;

/** A unit with its site and its newest datasheet. */
export const newestVersion = { site: true, versions: { orderBy: { number: 'desc' }, take: 1 } } as const;

export type UnitRow = {
  id: number;
  tag: string;
  site: StoredSite;
  versions: { number: number; document: string; createdAt: Date }[];
};

export function fromRow(row: UnitRow): StoredUnit {
  const version = row.versions[0]!;
  return {
    id: row.id,
    tag: row.tag,
    site: row.site,
    unit: JSON.parse(version.document) as Unit,
    version: version.number,
    versionSince: version.createdAt.getTime(),
  };
}

export async function listSites(entities: Entities): Promise<StoredSite[]> {
  return entities.site.findMany({ orderBy: { name: 'asc' } });
}

/** Tags of the units of a site. */
export async function tagsOfSite(entities: Entities, siteId: number): Promise<string[]> {
  const rows = await entities.unit.findMany({
    where: { siteId },
    select: { tag: true },
    orderBy: { tag: 'asc' },
  });
  return rows.map(({ tag }) => tag);
}

/** Units in the order of their tags: all, or those of some tags. */
export async function listUnits(entities: Entities, tags?: readonly string[]): Promise<StoredUnit[]> {
  const asked = tags ?? (await entities.unit.findMany({ select: { tag: true } })).map(({ tag }) => tag);
  const rows: UnitRow[] = [];
  // An include asks for the versions of all its units by their numbers, and a statement takes only so many parameters.
  for (let from = 0; from < asked.length; from += MOST_PARAMETERS) {
    const where = { tag: { in: asked.slice(from, from + MOST_PARAMETERS) } };
    rows.push(...(await entities.unit.findMany({ where, include: newestVersion })));
  }
  return rows.sort((a, b) => (a.tag < b.tag ? -1 : 1)).map(fromRow);
}

export async function findUnit(entities: Entities, tag: string): Promise<StoredUnit | null> {
  const row = await entities.unit.findUnique({ where: { tag }, include: newestVersion });
  return row === null ? null : fromRow(row);
}

/** One version of a datasheet, and when it was saved [ms]. */
export type StoredVersion = { number: number; unit: Unit; savedAt: number };

/** Every version of a unit's datasheet, the first one first. */
export async function listVersions(entities: Entities, unitId: number): Promise<StoredVersion[]> {
  const rows = await entities.unitVersion.findMany({ where: { unitId }, orderBy: { number: 'asc' } });
  return rows.map(({ number, document, createdAt }) => ({
    number,
    unit: JSON.parse(document) as Unit,
    savedAt: createdAt.getTime(),
  }));
}

export async function unitIds(entities: Entities): Promise<Map<string, number>> {
  const rows = await entities.unit.findMany({ select: { id: true, tag: true }, orderBy: { tag: 'asc' } });
  return new Map(rows.map((row) => [row.tag, row.id]));
}

/** Whether a unit's lost heat or its pumps are priced by one of some supplies. */
export function isUsing({ energy, pumping }: Unit, supplies: readonly string[]): boolean {
  return [energy?.supply, pumping?.supply].some((name) => name !== undefined && supplies.includes(name));
}
