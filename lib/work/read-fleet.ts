import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import type { AnalysedUnit, FleetRecords, UnitRecord } from '@/lib/report/records';
import { allCleanings, listOutages } from '@/lib/store/entities/events';
import { allResults } from '@/lib/store/entities/results';
import { listSites, listUnits, type StoredUnit } from '@/lib/store/entities/units';
import type { Context } from './context';

/** Everything the fleet page shows, from stored results: nothing is worked out anew. */
export async function readFleet(context: Context): Promise<FleetRecords> {
  const { entities, series } = context.store;
  const [sites, units, results, cleanings, outages, due] = await Promise.all([
    listSites(entities),
    listUnits(entities),
    allResults(entities),
    allCleanings(entities),
    listOutages(entities),
    series.due(),
  ]);
  const analysed = units.map(async (unit): Promise<AnalysedUnit> => {
    const stored = results.get(unit.id);
    return {
      record: toRecord(unit),
      trend: stored?.trend ?? null,
      result: stored?.result ?? null,
      daily: await series.readDaily(unit.id),
      cleanings: cleanings.get(unit.id) ?? [],
    };
  });
  const clock = context.now();
  const asOf = [...results.values()].flatMap((stored) => stored.asOf ?? []);
  const now = asOf.length === 0 ? clock : Math.max(...asOf);
  return { sites, units: await Promise.all(analysed), outages, now, clock, due: due.size };
}

/** A stored unit with its datasheet in SI. */
export function toRecord(stored: StoredUnit): UnitRecord {
  return { ...stored, exchanger: toExchanger(stored.unit), settings: toCheckSettings(stored.unit) };
}
