import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { suppliesInForce } from '@/lib/report/prices/supplies-in-force';
import type { AnalysedUnit, FleetRecords, UnitRecord } from '@/lib/report/records';
import { completeTrend } from '@/lib/report/unit/complete-trend';
import { allCleanings, listOutages } from '@/lib/store/entities/events';
import { listPlanned } from '@/lib/store/entities/planned';
import { plansInForce } from '@/lib/store/entities/plans';
import { allResults } from '@/lib/store/entities/results';
import { listSupplies } from '@/lib/store/entities/supplies';
import { listSites, listUnits, type StoredUnit } from '@/lib/store/entities/units';
import { DAY_MS } from '@/lib/time/calendar-day';
import type { Context } from './context';

/** A first day after any. */
const NO_DAYS = 1e6;

/** What a page reads of the days: the last so many up to the unit's today; null reads all. */
type FleetRequest = { lastDays: number | null };

/** Everything the fleet page shows, from stored results: nothing is worked out anew. */
export async function readFleet(
  context: Context,
  { lastDays }: FleetRequest = { lastDays: null },
): Promise<FleetRecords> {
  const { entities, series } = context.store;
  const [sites, units, results, cleanings, outages, planned, acceptedPlans, supplies, due] =
    await Promise.all([
      listSites(entities),
      listUnits(entities),
      allResults(entities),
      allCleanings(entities),
      listOutages(entities),
      listPlanned(entities, { state: 'open' }),
      plansInForce(entities),
      listSupplies(entities),
      series.due(),
    ]);
  const analysed = units.map(async (unit): Promise<AnalysedUnit> => {
    const stored = results.get(unit.id);
    return {
      record: toRecord(unit),
      trend: completeTrend(stored?.trend ?? null),
      result: stored?.result ?? null,
      daily: await series.readDaily(unit.id, firstDay(stored?.asOf ?? null, lastDays)),
      cleanings: cleanings.get(unit.id) ?? [],
    };
  });
  const clock = context.now();
  const asOf = [...results.values()].flatMap((stored) => stored.asOf ?? []);
  const now = asOf.length === 0 ? clock : Math.max(...asOf);
  return {
    sites,
    units: await Promise.all(analysed),
    outages,
    planned,
    acceptedPlans,
    supplies: suppliesInForce(supplies),
    now,
    clock,
    due: due.size,
  };
}

/** A day earlier than asked for, since the instant is not local. */
function firstDay(asOf: number | null, lastDays: number | null): number | undefined {
  if (lastDays === null) return undefined;
  return asOf === null ? NO_DAYS : Math.floor(asOf / DAY_MS) - lastDays;
}

/** A stored unit with its datasheet in SI. */
export function toRecord(stored: StoredUnit): UnitRecord {
  return { ...stored, exchanger: toExchanger(stored.unit), settings: toCheckSettings(stored.unit) };
}
