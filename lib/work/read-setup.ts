import type { Site } from '@/lib/contract/fleet-file';
import type { SetupRecords } from '@/lib/report/setup/setup-records';
import { findUnit, listSites } from '@/lib/store/entities/units';
import { allTimeZones } from '@/lib/time/all-time-zones';
import type { Context } from './context';

/** What the form of a unit begins with; `known` is null for a new unit, the whole null for an unknown tag. */
export async function readSetup(context: Context, tag: string | null): Promise<SetupRecords | null> {
  const { entities } = context.store;
  const sites = (await listSites(entities)).map(plainSite);
  const timeZones = allTimeZones();
  if (tag === null) return { sites, timeZones, known: null };
  const stored = await findUnit(entities, tag);
  if (stored === null) return null;
  const { unit, version, site } = stored;
  return { sites, timeZones, known: { tag, site: plainSite(site), unit, version } };
}

function plainSite({ name, timeZone, currency }: Site): Site {
  return { name, timeZone, currency };
}
