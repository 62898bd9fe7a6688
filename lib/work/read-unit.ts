import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import type { UnitRecords } from '@/lib/report/records';
import { listCleanings, listOutages } from '@/lib/store/entities/events';
import { findResult } from '@/lib/store/entities/results';
import { findUnit } from '@/lib/store/entities/units';
import type { Context } from './context';
import { toRecord } from './read-fleet';

export type Period = {
  /** [ms]; null = from the first reading, or to the newest. */
  from: number | null;
  to: number | null;
};

/**
 * Everything the unit page shows: stored results, and the readings of the period evaluated with the clean reference
 * those results were made with. Null for an unknown tag.
 */
export async function readUnit(context: Context, tag: string, period: Period): Promise<UnitRecords | null> {
  const { entities, series } = context.store;
  const stored = await findUnit(entities, tag);
  if (stored === null) return null;
  const [known, cleanings, outages, daily, due, readings] = await Promise.all([
    findResult(entities, stored.id),
    listCleanings(entities, stored.id),
    listOutages(entities),
    series.readDaily(stored.id),
    series.due(),
    series.readReadings(stored.id, period.from ?? 0, period.to ?? Number.MAX_SAFE_INTEGER),
  ]);
  const record = toRecord(stored);
  const { exchanger, settings } = record;
  return {
    record,
    trend: known?.trend ?? null,
    result: known?.result ?? null,
    daily,
    cleanings,
    outages: outages.filter(({ siteId }) => siteId === stored.site.id),
    readings,
    evaluation: evaluateReadings({
      exchanger,
      settings,
      readings,
      cleanScale: known?.cleanScale ?? 1,
      ...(known === null ? {} : { nominal: known.nominal }),
    }),
    now: known?.asOf ?? context.now(),
    clock: context.now(),
    isDue: due.has(stored.id),
  };
}
