import type { PrismaClient } from '@/generated/sqlite/client';
import type { FleetFile, Site, Unit } from '@/lib/contract/fleet-file';
import { addStatedSupplies } from './supplies';

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

const newestVersion = { site: true, versions: { orderBy: { number: 'desc' }, take: 1 } } as const;

type Row = {
  id: number;
  tag: string;
  site: StoredSite;
  versions: { number: number; document: string; createdAt: Date }[];
};

function fromRow(row: Row): StoredUnit {
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

export type SavedUnits = {
  added: string[];
  updated: string[];
  unchanged: string[];
  changedIds: number[];
  /** Units whose money is another one now, while their readings say the same. */
  repricedIds: number[];
};

/**
 * Adds or updates units of one site in one transaction, with the prices it states; a datasheet that differs becomes a new
 * version.
 */
export async function saveFleet(
  entities: Entities,
  { site: stated, units, at }: FleetFile & { at: number },
): Promise<SavedUnits> {
  const saved: SavedUnits = { added: [], updated: [], unchanged: [], changedIds: [], repricedIds: [] };
  const { supplies = [], ...site } = stated;
  await entities.$transaction(
    async (transaction) => {
      const before = await transaction.site.findUnique({
        where: { name: site.name },
        include: { units: { include: newestVersion } },
      });
      const { id: siteId } = await transaction.site.upsert({
        where: { name: site.name },
        create: site,
        update: site,
      });
      // Days are cut at the site's midnight: another zone makes every unit of the site due.
      if (before !== null && before.timeZone !== site.timeZone) {
        saved.changedIds.push(...before.units.map((unit) => unit.id));
      }
      const pricedAnew = await addStatedSupplies(transaction, { siteId, supplies, at });
      const isRepriced = (row: Row) =>
        before?.currency !== site.currency || isUsing(fromRow(row).unit, pricedAnew);
      saved.repricedIds.push(...(before?.units ?? []).filter(isRepriced).map(({ id }) => id));
      for (const unit of units) {
        const document = JSON.stringify(unit);
        const known = await transaction.unit.findUnique({ where: { tag: unit.tag }, include: newestVersion });
        const createdAt = new Date(at);
        if (known === null) {
          const versions = { create: { number: 1, document, createdAt } };
          const created = await transaction.unit.create({ data: { tag: unit.tag, siteId, versions } });
          saved.added.push(unit.tag);
          saved.changedIds.push(created.id);
        } else if (known.versions[0]!.document === document && known.siteId === siteId) {
          saved.unchanged.push(unit.tag);
        } else {
          const number = known.versions[0]!.number + 1;
          await transaction.unit.update({
            where: { id: known.id },
            data: { siteId, versions: { create: { number, document, createdAt } } },
          });
          saved.updated.push(unit.tag);
          saved.changedIds.push(known.id);
        }
      }
    },
    { timeout: 120_000, maxWait: 60_000 },
  );
  return saved;
}
