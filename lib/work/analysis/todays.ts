import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import { listSites, type StoredSite } from '@/lib/store/entities/units';
import type { UnitStanding } from '@/lib/store/series/analysis-store';
import { NO_READING } from '@/lib/store/series/analysis-store';
import { localDay } from '@/lib/time/local-clock';
import type { Context } from '../context';

/** Each site's "today": its newest reading [ms], by number of the site. */
export type Todays = Map<number, number>;

/** Every unit of a fleet, and which day it is at each site. */
export type Fleet = { units: UnitStanding[]; todays: Todays; sites: Map<number, StoredSite> };

export async function readFleetStanding({ store }: Context): Promise<Fleet> {
  const [sites, units] = await Promise.all([listSites(store.entities), store.series.analysis.standings()]);
  const todays: Todays = new Map();
  for (const { siteId, newest } of units) moveOn(todays, siteId, newest);
  return { units, todays, sites: new Map(sites.map((site) => [site.id, site])) };
}

/** A site's today is never before a reading of it. */
export function moveOn(todays: Todays, siteId: number, reading: number | null): void {
  if (reading !== null) todays.set(siteId, Math.max(todays.get(siteId) ?? reading, reading));
}

/** Units whose results are not those of today though nothing marks them due: they are marked. */
export async function markStale({ store }: Context, fleet: Fleet): Promise<void> {
  const stale = fleet.units.filter((unit) => !unit.isDue && !isCurrent(unit, fleet));
  if (stale.length === 0) return;
  await store.series.markAllDue(
    stale.map(({ unitId }) => unitId),
    NO_READING,
  );
}

/** Whether a unit's results are by today's method and its newest datasheet, and of the day its site has come to. */
export function isCurrent({ known, version, siteId }: UnitStanding, { todays, sites }: Fleet): boolean {
  if (known === null || known.methodVersion !== METHOD_VERSION || known.unitVersion !== version) return false;
  // Results that do not say what they were judged by come from before that was kept.
  if (!known.hasBasis) return false;
  const today = todays.get(siteId) ?? null;
  if (known.asOf === null || today === null) return known.asOf === today;
  const { timeZone } = sites.get(siteId)!;
  return localDay(known.asOf, timeZone) === localDay(today, timeZone);
}
