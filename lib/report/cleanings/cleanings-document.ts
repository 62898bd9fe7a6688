import type { FleetCleanings } from '@/lib/contract/fleet-cleanings';
import type { FleetRecords } from '@/lib/report/records';
import { isoDay } from '@/lib/time/calendar-day';
import { isoInZone } from '@/lib/time/local-day';
import { cleaningTotals } from './cleaning-totals';
import type { CleaningsAddress } from './cleanings-address';
import { cleaningsPeriod } from './cleanings-period';
import { type DoneCleaning, doneCleanings, netOf } from './done-cleaning';
import { fleetToday } from './fleet-today';

/** The contract's cleanings of the fleet in the period an address asks for. */
export function cleaningsDocument(records: FleetRecords, address: CleaningsAddress): FleetCleanings {
  const period = cleaningsPeriod(address, fleetToday(records));
  const cleanings = doneCleanings(records, period);
  const {
    withoutResult: _result,
    withoutPrice: _price,
    withoutCost: _cost,
    ...totals
  } = cleaningTotals(cleanings);
  return {
    asOf: records.units.some(({ trend }) => trend !== null) ? new Date(records.now).toISOString() : null,
    from: period.from === null ? null : isoDay(period.from),
    to: isoDay(period.to),
    totals,
    cleanings: cleanings.map(cleaningDocument),
    probable: records.units.flatMap(({ record, trend }) =>
      (trend?.probableCleanings ?? []).map(({ day, fall, fallUncertainty, share }) => ({
        tag: record.tag,
        day: isoDay(day),
        fall,
        fallUncertainty,
        share,
      })),
    ),
  };
}

function cleaningDocument(cleaning: DoneCleaning): FleetCleanings['cleanings'][number] {
  const { tag, site, service, at, timeZone, method, effect, reason, currency, worth, cost, isUsualCost } =
    cleaning;
  return {
    tag,
    site,
    service,
    at: isoInZone(at, timeZone),
    method,
    effect,
    reason,
    currency,
    worth,
    cost,
    isUsualCost,
    net: netOf(cleaning),
  };
}
