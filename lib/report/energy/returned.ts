import type { ReturnedCleaning } from '@/lib/contract/costs';
import { type DoneCleaning, doneCleanings } from '@/lib/report/cleanings/done-cleaning';
import { unitRates } from '@/lib/report/prices/unit-rates';
import { winningUnit, wonByCleaning } from '@/lib/report/prices/won-by-cleaning';
import type { AnalysedUnit, FleetRecords } from '@/lib/report/records';
import { isoDay } from '@/lib/time/calendar-day';
import type { EnergyPeriod } from './energy-period';

/** What the cleanings of a period returned so far, at the prices of the days on which they did; the latest first. */
export function returnedCleanings(records: FleetRecords, period: EnergyPeriod): ReturnedCleaning[] {
  const byTag = new Map(records.units.map((unit) => [unit.record.tag, unit]));
  return doneCleanings(records, period).map((cleaning) =>
    returnedCleaning(byTag.get(cleaning.tag)!, cleaning, records),
  );
}

function returnedCleaning(
  unit: AnalysedUnit,
  cleaning: DoneCleaning,
  { supplies }: FleetRecords,
): ReturnedCleaning {
  const { tag, site, day, method, currency, cost, isUsualCost, reason } = cleaning;
  const own = supplies.filter(({ siteId }) => siteId === unit.record.site.id);
  const rates = unitRates(unit.record.unit, own).heat.money;
  const isHeld = unit.record.exchanger.losses.heldOutlet !== null;
  const { daily, trend } = unit;
  const won =
    trend === null
      ? null
      : wonByCleaning(winningUnit({ exchanger: unit.record.exchanger, daily, trend }), cleaning, rates);
  const returned = won?.money ?? null;
  const untold = won === null ? (isHeld ? 'outlet-held' : 'too-few-after') : null;
  const unpriced = returned === null ? 'no-price' : cost === null ? 'no-cost' : null;
  return {
    tag,
    site,
    day: isoDay(day),
    method,
    currency,
    cost,
    isUsualCost,
    energy: won?.energy ?? null,
    returned,
    returnedUncertainty: won?.moneyUncertainty ?? null,
    net: returned === null || cost === null ? null : returned - cost,
    paidBackOn: won?.paidBackDay == null ? null : isoDay(won.paidBackDay),
    reason: reason ?? untold ?? unpriced,
  };
}
