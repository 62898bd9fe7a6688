import type { Unit } from '@/lib/contract/fleet-file';
import type { SiteRecord, SupplyRecord, UnitRecord } from '@/lib/report/records';
import { suppliesInForce } from './supplies-in-force';

/** What is known of prices: everything ever stated, the oldest first, and the units with their datasheets. */
export type PriceRecords = {
  sites: SiteRecord[];
  units: Pick<UnitRecord, 'tag' | 'site' | 'unit'>[];
  stated: SupplyRecord[];
};

/** One supply of a site: its statements by day, of one day the newest first, and the units that use it. */
export type SiteSupply = {
  site: SiteRecord;
  supply: string;
  dated: (SupplyRecord & { isInForce: boolean })[];
  usedBy: string[];
  pumpedBy: string[];
};

/** Supplies by site and name: those anything was stated of, and those that a datasheet names. */
export function siteSupplies({ sites, units, stated }: PriceRecords): SiteSupply[] {
  const inForce = new Set(suppliesInForce(stated));
  return sites.flatMap((site) => {
    const own = units.filter((unit) => unit.site.id === site.id);
    const rows = stated.filter(({ siteId }) => siteId === site.id);
    const named = own.flatMap(({ unit }) => [unit.energy?.supply ?? [], unit.pumping?.supply ?? []].flat());
    const names = [...new Set([...rows.map(({ supply }) => supply), ...named])].sort();
    return names.map((supply) => ({
      site,
      supply,
      dated: rows
        .filter((row) => row.supply === supply)
        .map((row) => ({ ...row, isInForce: inForce.has(row) }))
        .reverse()
        .sort((a, b) => b.fromDay - a.fromDay),
      usedBy: tagsWhere(own, ({ energy }) => energy?.supply === supply),
      pumpedBy: tagsWhere(own, ({ pumping }) => pumping?.supply === supply),
    }));
  });
}

/** Units whose datasheet states a price or a factor of the heat by itself. */
export function datasheetPrices({ units }: PriceRecords): PriceRecords['units'] {
  return units.filter(({ unit }) => unit.energy?.price !== undefined || unit.energy?.carbon !== undefined);
}

/** Units whose lost heat has no price, with why: nothing is named, or nothing is stated of what is named. */
export function unpricedUnits(
  records: PriceRecords,
): { unit: PriceRecords['units'][number]; reason: string }[] {
  const inForce = suppliesInForce(records.stated);
  return records.units.flatMap((each) => {
    const { energy } = each.unit;
    if (energy?.price !== undefined) return [];
    const isPriced = inForce.some(
      ({ siteId, supply, price }) => siteId === each.site.id && supply === energy?.supply && price !== null,
    );
    return isPriced ? [] : [{ unit: each, reason: reasonWithoutPrice(energy) }];
  });
}

/** What to enter so that lost heat has a price. */
export function reasonWithoutPrice(energy: Unit['energy']): string {
  if (energy === undefined) return 'its datasheet does not say what makes up for lost heat';
  if (energy.supply === undefined) return 'its datasheet names no supply and states no price';
  return `no price is stated of ${energy.supply}`;
}

function tagsWhere(units: PriceRecords['units'], isUsing: (unit: Unit) => boolean): string[] {
  return units.filter(({ unit }) => isUsing(unit)).map(({ tag }) => tag);
}
