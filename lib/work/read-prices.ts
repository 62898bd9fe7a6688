import type { Prices } from '@/lib/contract/prices';
import { pricesDocument } from '@/lib/report/prices/prices-document';
import type { PriceRecords } from '@/lib/report/prices/site-supplies';
import { listSupplies } from '@/lib/store/entities/supplies';
import { listSites, listUnits } from '@/lib/store/entities/units';
import type { Context } from './context';

/** Everything stated of supplies, and the units that use them or not. */
export async function readPrices({ store }: Context): Promise<PriceRecords> {
  const [sites, units, stated] = await Promise.all([
    listSites(store.entities),
    listUnits(store.entities),
    listSupplies(store.entities),
  ]);
  return { sites, units, stated };
}

/** The same as the API gives it. */
export async function showPrices(context: Context): Promise<Prices> {
  return pricesDocument(await readPrices(context));
}
