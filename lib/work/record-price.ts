import { AppError } from '@/lib/contract/app-error';
import type { PriceRequest, Prices } from '@/lib/contract/prices';
import { suppliesInForce } from '@/lib/report/prices/supplies-in-force';
import { addSupply, listSupplies } from '@/lib/store/entities/supplies';
import { isUsing, listSites, listUnits, type StoredSite } from '@/lib/store/entities/units';
import { dayNumber } from '@/lib/time/calendar-day';
import { NO_READING } from './analyse-unit';
import type { Context } from './context';
import { showPrices } from './read-prices';
import { bringUpToDate } from './take-readings';

/**
 * Records what a supply costs and emits from a day on, or takes back what was stated for that day; units that use it are
 * due to be priced anew.
 *
 * @returns tags of those units
 * @throws AppError 'not-found' for an unknown site, 'invalid-input' where there is nothing to take back
 */
export async function recordPrice(context: Context, request: PriceRequest): Promise<string[]> {
  const { entities, series } = context.store;
  const { id: siteId } = await knownSite(context, request.site);
  const { supply, price, carbon, by, note } = request;
  const fromDay = dayNumber(request.from);
  if (request.withdraw) await refuseEmptyWithdrawal(context, { siteId, supply, fromDay });
  await addSupply(entities, {
    siteId,
    supply,
    fromDay,
    price: price ?? null,
    carbon: carbon ?? null,
    givenBy: by ?? null,
    note: note || null,
    createdAt: context.now(),
  });
  const using = (await listUnits(entities)).filter(
    ({ site, unit }) => site.id === siteId && isUsing(unit, [supply]),
  );
  for (const { id } of using) await series.markDue(id, NO_READING);
  return using.map(({ tag }) => tag);
}

/** Takes a price from a person or another program, which is answered with all of them once the results are up to date. */
export async function takePrice(context: Context, request: PriceRequest): Promise<Prices> {
  await recordPrice(context, request);
  await bringUpToDate(context);
  return showPrices(context);
}

async function knownSite({ store }: Context, name: string): Promise<StoredSite> {
  const sites = await listSites(store.entities);
  const site = sites.find((each) => each.name === name);
  if (site !== undefined) return site;
  const names = sites.map((each) => `"${each.name}"`).join(', ') || 'none yet';
  throw new AppError('not-found', `There is no site "${name}"`, [
    { field: 'site', message: `use one of the sites there are: ${names}` },
  ]);
}

async function refuseEmptyWithdrawal(
  { store }: Context,
  at: { siteId: number; supply: string; fromDay: number },
): Promise<void> {
  if (suppliesInForce(await listSupplies(store.entities, at)).length > 0) return;
  throw new AppError('invalid-input', 'Nothing was withdrawn', [
    { field: 'from', message: `nothing is stated of "${at.supply}" from that day on` },
  ]);
}
