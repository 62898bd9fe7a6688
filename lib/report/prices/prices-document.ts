import type { Prices } from '@/lib/contract/prices';
import { isoDay } from '@/lib/time/calendar-day';
import { isoInZone } from '@/lib/time/local-day';
import { datasheetPrices, type PriceRecords, siteSupplies, unpricedUnits } from './site-supplies';

/** Prices and factors as the API gives them. */
export function pricesDocument(records: PriceRecords): Prices {
  return {
    supplies: siteSupplies(records).map(({ site, supply, dated, usedBy, pumpedBy }) => ({
      site: site.name,
      currency: site.currency,
      supply,
      dated: dated.map(({ id, fromDay, price, carbon, givenBy, note, createdAt, isInForce }) => ({
        number: id,
        from: isoDay(fromDay),
        price,
        carbon,
        by: givenBy,
        note,
        givenAt: isoInZone(createdAt, site.timeZone),
        isInForce,
      })),
      usedBy,
      pumpedBy,
    })),
    datasheets: datasheetPrices(records).map(({ tag, site, unit }) => ({
      tag,
      site: site.name,
      currency: site.currency,
      price: unit.energy?.price ?? null,
      carbon: unit.energy?.carbon ?? null,
    })),
    unpriced: unpricedUnits(records).map(({ unit, reason }) => ({
      tag: unit.tag,
      site: unit.site.name,
      reason,
    })),
  };
}
