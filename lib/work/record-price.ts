import { AppError } from '@/lib/contract/app-error';
import type { PriceRequest, Prices } from '@/lib/contract/prices';
import type { Making } from '@/lib/store/entities/change';
import { addSupply, lastStated, type SupplyDay } from '@/lib/store/entities/supplies';
import { isUsing, listSites, listUnits, type StoredSite } from '@/lib/store/entities/units';
import { NO_READING } from '@/lib/store/series/analysis-store';
import { dayNumber } from '@/lib/time/calendar-day';
import { changing } from './changing';
import type { Context } from './context';
import { editConflict } from './edit-conflict';
import { showPrices } from './read-prices';
import { bringUpToDate } from './take-readings';

/**
 * Records what a supply costs and emits from a day on, or takes back what was stated for that day; units that use it are
 * due to be priced anew.
 *
 * @returns tags of those units
 * @throws AppError 'not-found' for an unknown site, 'invalid-input' where there is nothing to take back, 'conflict' where
 *   somebody else has stated something of that day since
 */
export async function recordPrice(context: Context, request: PriceRequest): Promise<string[]> {
  const site = await knownSite(context, request.site);
  const { supply, price, carbon, by, note, after } = request;
  const of = { siteId: site.id, supply, fromDay: dayNumber(request.from) };
  const using = (await listUnits(context.store.entities)).filter(
    (unit) => unit.site.id === site.id && isUsing(unit.unit, [supply]),
  );
  const isDone = await changing(context, by, async (making) => {
    if (request.withdraw) await refuseEmptyWithdrawal(making, of);
    const last = await lastStated(making.transaction, of);
    if (after !== undefined && last !== null && last.id > after) return false;
    await addSupply(making, site.name, {
      ...of,
      price: price ?? null,
      carbon: carbon ?? null,
      givenBy: by || making.actor.kind === 'person' ? making.by : null,
      note: note || null,
    });
    for (const { id } of using) await making.markDue(id, NO_READING);
    return true;
  });
  if (!isDone) throw await statedMeanwhile(context, site, request);
  return using.map(({ tag }) => tag);
}

function statedMeanwhile(
  context: Context,
  { name, timeZone }: StoredSite,
  { supply, from }: PriceRequest,
): Promise<AppError> {
  return editConflict(context, {
    what: `What ${supply} costs at ${name} from ${from} on`,
    timeZone,
    changes: { subjects: ['price'], name },
    field: 'after',
  });
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

async function refuseEmptyWithdrawal({ transaction }: Making, at: SupplyDay): Promise<void> {
  const last = await lastStated(transaction, at);
  if (last !== null && (last.price !== null || last.carbon !== null)) return;
  throw new AppError('invalid-input', 'Nothing was withdrawn', [
    { field: 'from', message: `nothing is stated of "${at.supply}" from that day on` },
  ]);
}
