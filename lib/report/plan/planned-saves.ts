import { hasPrice, unitRates } from '@/lib/report/prices/unit-rates';
import type { FleetRecords, PlannedRecord } from '@/lib/report/records';

/** What planned work was projected to save; null where its unit has no price, so that nobody can say. */
export function plannedSaves(
  { unitId, saves }: Pick<PlannedRecord, 'unitId' | 'saves'>,
  { units, supplies }: Pick<FleetRecords, 'units' | 'supplies'>,
): number | null {
  const record = units.find((unit) => unit.record.id === unitId)?.record;
  if (saves !== 0 || record === undefined) return saves;
  const own = supplies.filter(({ siteId }) => siteId === record.site.id);
  return hasPrice(unitRates(record.unit, own)) ? saves : null;
}
