import type { Site } from '@/lib/contract/fleet-file';
import { suppliesInForce } from '@/lib/report/prices/supplies-in-force';
import type { SupplyRecord } from '@/lib/report/records';
import type { SetupRecords } from '@/lib/report/setup/setup-records';
import { listSupplies } from '@/lib/store/entities/supplies';
import { findUnit, listSites } from '@/lib/store/entities/units';
import { allTimeZones } from '@/lib/time/all-time-zones';
import type { Context } from './context';

/** What the form of a unit begins with; `known` is null for a new unit, the whole null for an unknown tag. */
export async function readSetup(context: Context, tag: string | null): Promise<SetupRecords | null> {
  const { entities } = context.store;
  const stored = await listSites(entities);
  const stated = suppliesInForce(await listSupplies(entities));
  const common = {
    sites: stored.map(plainSite),
    supplyNames: Object.fromEntries(stored.map(({ id, name }) => [name, namesAt(id, stated)])),
    timeZones: allTimeZones(),
  };
  if (tag === null) return { ...common, known: null };
  const found = await findUnit(entities, tag);
  if (found === null) return null;
  const { unit, version, site } = found;
  return { ...common, known: { tag, site: plainSite(site), unit, version } };
}

function namesAt(site: number, stated: SupplyRecord[]): string[] {
  return [...new Set(stated.filter(({ siteId }) => siteId === site).map(({ supply }) => supply))];
}

function plainSite({ name, timeZone, currency }: Site): Site {
  return { name, timeZone, currency };
}
