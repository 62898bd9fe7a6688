import { upToLocalDay } from '@/lib/core/series/slice-daily';
import { type CleaningDayInput, cleaningDay } from '@/lib/report/prices/cleaning-day';
import { type UnitRates, unitRates } from '@/lib/report/prices/unit-rates';
import type { UnitRecords } from '@/lib/report/records';
import { localDay } from '@/lib/time/local-clock';

/** What the cost page is worked out from: the unit's records up to its today, its rates, and the best cleaning day. */
export type CostRecords = CleaningDayInput & {
  records: UnitRecords;
  currency: string;
  rates: UnitRates;
  best: ReturnType<typeof cleaningDay>;
};

/** Null before the first analysis. */
export function costRecords(records: UnitRecords): CostRecords | null {
  const { record, trend, daily, supplies, cleanings, now } = records;
  if (trend === null || daily.day.length === 0) return null;
  const today = localDay(now, record.site.timeZone);
  const input = {
    unit: record.unit,
    exchanger: record.exchanger,
    trend,
    daily: upToLocalDay(daily, today),
    supplies,
    cleanings: cleanings.filter(({ at }) => at <= now),
    today,
  };
  return {
    ...input,
    records,
    currency: record.site.currency,
    rates: unitRates(record.unit, supplies),
    best: cleaningDay(input),
  };
}
