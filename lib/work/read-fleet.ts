import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { suppliesInForce } from '@/lib/report/prices/supplies-in-force';
import type { AnalysedUnit, FleetRecords, UnitRecord } from '@/lib/report/records';
import { completeTrend } from '@/lib/report/unit/complete-trend';
import { allCleanings, listOutages } from '@/lib/store/entities/events';
import { dueCount, newestResult } from '@/lib/store/entities/fleet-rows';
import { listPlanned } from '@/lib/store/entities/planned';
import { plansInForce } from '@/lib/store/entities/plans';
import { allResults } from '@/lib/store/entities/results';
import { listSupplies } from '@/lib/store/entities/supplies';
import { listSites, listUnits, type StoredUnit, tagsOfSite } from '@/lib/store/entities/units';
import { DAY_MS } from '@/lib/time/calendar-day';
import type { Context } from './context';

/** A first day after any. */
const NO_DAYS = 1e6;

/** Units whose results and days are read at once. */
const UNITS_AT_ONCE = 200;

type FleetRequest = {
  /** The last so many days up to the unit's today; null reads all. */
  lastDays: number | null;
  /** Only units of a site, by its number: the others are not read at all. */
  siteId?: number;
  /** Only units of these tags. */
  tags?: readonly string[];
  /** Leaves projections and the curves behind them out, which are most of a result: for pages that look back. */
  isLookingBack?: boolean;
};

/** Everything that pages of whole results show: nothing is worked out anew. */
export async function readFleet(
  context: Context,
  request: FleetRequest = { lastDays: null },
): Promise<FleetRecords> {
  const { entities } = context.store;
  const [sites, wanted, outages, planned, acceptedPlans, supplies, due, newest] = await Promise.all([
    listSites(entities),
    unitsOf(context, request),
    listOutages(entities),
    listPlanned(entities, { state: 'open' }),
    plansInForce(entities),
    listSupplies(entities),
    dueCount(entities),
    newestResult(entities),
  ]);
  const units: AnalysedUnit[] = [];
  for (let from = 0; from < wanted.length; from += UNITS_AT_ONCE)
    units.push(...(await analysedUnits(context, wanted.slice(from, from + UNITS_AT_ONCE), request)));
  const clock = context.now();
  return {
    sites,
    units,
    outages,
    planned,
    acceptedPlans,
    supplies: suppliesInForce(supplies),
    now: newest ?? clock,
    clock,
    due,
  };
}

async function unitsOf({ store }: Context, { siteId, tags }: FleetRequest): Promise<StoredUnit[]> {
  if (siteId === undefined) return listUnits(store.entities, tags);
  return listUnits(store.entities, await tagsOfSite(store.entities, siteId));
}

async function analysedUnits(
  { store: { entities, series } }: Context,
  units: StoredUnit[],
  { lastDays, isLookingBack = false }: FleetRequest,
): Promise<AnalysedUnit[]> {
  const ids = units.map(({ id }) => id);
  const [results, cleanings] = await Promise.all([
    allResults(entities, ids),
    allCleanings(entities, { unitId: { in: ids } }),
  ]);
  const fromDays = units.map(({ id }) => ({
    unitId: id,
    fromDay: firstDay(results.get(id)?.asOf ?? null, lastDays),
  }));
  const daily = await series.readDailyOf(fromDays);
  return units.map((unit): AnalysedUnit => {
    const stored = results.get(unit.id);
    const trend = completeTrend(stored?.trend ?? null);
    return {
      record: toRecord(unit),
      trend: trend !== null && isLookingBack ? withoutOutlook(trend) : trend,
      result: stored?.result ?? null,
      daily: daily.get(unit.id)!,
      cleanings: cleanings.get(unit.id) ?? [],
    };
  });
}

/** A trend as pages need it that show what was: thousands of them must have room in memory. */
function withoutOutlook(trend: UnitTrend): UnitTrend {
  return { ...trend, band: null, outlook: null };
}

/** A day earlier than asked for, since the instant is not local. */
function firstDay(asOf: number | null, lastDays: number | null): number {
  if (lastDays === null) return -NO_DAYS;
  return asOf === null ? NO_DAYS : Math.floor(asOf / DAY_MS) - lastDays;
}

/** A stored unit with its datasheet in SI. */
export function toRecord(stored: StoredUnit): UnitRecord {
  return { ...stored, exchanger: toExchanger(stored.unit), settings: toCheckSettings(stored.unit) };
}
