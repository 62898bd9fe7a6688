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

export async function listUnits(entities: Entities): Promise<StoredUnit[]> {
  return (await entities.unit.findMany({ include: newestVersion, orderBy: { tag: 'asc' } })).map(fromRow);
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
  const rows = await entities.unit.findMany({ select: { id: true, tag: true } });
  return new Map(rows.map((row) => [row.tag, row.id]));
}

/** Whether a unit's lost heat or its pumps are priced by one of some supplies. */
export function isUsing({ energy, pumping }: Unit, supplies: readonly string[]): boolean {
  return [energy?.supply, pumping?.supply].some((name) => name !== undefined && supplies.includes(name));
}
