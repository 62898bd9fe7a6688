import { listSupplies } from '@/lib/store/entities/supplies';
import { listSites } from '@/lib/store/entities/units';
import { isoDay } from '@/lib/time/calendar-day';
import type { Context } from './context';
import type { KnownPrice } from './sheet-sites';

/** The last statement of each supply and day of every site, withdrawn ones without price and factor. */
export async function readKnownPrices(context: Context): Promise<KnownPrice[]> {
  const { entities } = context.store;
  const sites = new Map((await listSites(entities)).map(({ id, name }) => [id, name]));
  const last = new Map<string, KnownPrice>();
  for (const { siteId, supply, fromDay, price, carbon, createdAt } of await listSupplies(entities)) {
    const from = isoDay(fromDay);
    last.set(JSON.stringify([siteId, supply, from]), {
      site: sites.get(siteId)!,
      supply,
      from,
      price,
      carbon,
      statedAt: new Date(createdAt).toISOString(),
    });
  }
  return [...last.values()];
}
