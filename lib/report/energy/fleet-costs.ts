import type { FleetCosts, MonthCosts, SiteCosts, UnitCosts } from '@/lib/contract/costs';
import { fleetToday } from '@/lib/report/cleanings/fleet-today';
import { plannedSaves } from '@/lib/report/plan/planned-saves';
import type { AnalysedUnit, FleetRecords, SiteRecord } from '@/lib/report/records';
import { isoDay } from '@/lib/time/calendar-day';
import { isoInZone } from '@/lib/time/local-day';
import type { EnergyAddress } from './energy-address';
import { type EnergyPeriod, energyPeriod, monthsUpTo, periodBefore } from './energy-period';
import { NO_LOSS, NO_UNCERTAIN_LOSS, sumOfLosses, sumWithUncertainty } from './loss';
import { ofSite } from './of-site';
import { returnedCleanings } from './returned';
import { type UnitLosses, unitLosses } from './unit-losses';

/** Months shown one by one. */
const MONTHS_SHOWN = 18;

/** What fouling costs in the period an address asks for: by site, by unit, by month; what cleanings returned and planned ones will save. */
export function fleetCosts(records: FleetRecords, address: EnergyAddress): FleetCosts {
  const wanted = ofSite(records, address.site);
  const today = fleetToday(records);
  return costsIn(wanted, { period: energyPeriod(address, today), lastMonthDay: today });
}

/** The same for any stretch of days, and the months up to that of a day. */
export function costsIn(
  records: FleetRecords,
  { period, lastMonthDay }: { period: EnergyPeriod; lastMonthDay: number },
): FleetCosts {
  const today = fleetToday(records);
  const before = periodBefore(period);
  const analysed = records.units.map((unit) => ({ unit, losses: lossesOf(unit, records) }));
  const units = analysed.map(({ unit, losses }) => unitCosts(unit, losses, { period, before }));
  return {
    asOf: records.units.some(({ trend }) => trend !== null) ? new Date(records.now).toISOString() : null,
    from: isoDay(period.from),
    to: isoDay(period.to),
    before: { from: isoDay(before.from), to: isoDay(before.to) },
    sites: records.sites.map((site) => siteCosts(site, units)),
    units,
    months: monthsUpTo(lastMonthDay, MONTHS_SHOWN).flatMap((month) =>
      records.sites.flatMap((site) => monthCosts(site, month, { analysed, today })),
    ),
    cleanings: returnedCleanings(records, period),
    planned: plannedSavings(records),
  };
}

function lossesOf(unit: AnalysedUnit, { supplies }: FleetRecords): UnitLosses | null {
  if (unit.trend === null) return null;
  return unitLosses(
    unit,
    supplies.filter(({ siteId }) => siteId === unit.record.site.id),
  );
}

function unitCosts(
  { record }: AnalysedUnit,
  losses: UnitLosses | null,
  { period, before }: { period: EnergyPeriod; before: EnergyPeriod },
): UnitCosts {
  const { tag, unit, site } = record;
  const loss = losses?.uncertainLossIn(period) ?? NO_UNCERTAIN_LOSS;
  return {
    tag,
    service: unit.service ?? '',
    site: site.name,
    currency: site.currency,
    effect: unit.energy?.effect ?? null,
    heldOutlet: unit.energy?.heldOutlet ?? null,
    extraFlow: losses?.extraFlowIn(period) ?? null,
    ...loss,
    before: losses?.lossIn(before) ?? NO_LOSS,
    reason:
      losses === null
        ? 'never-analysed'
        : loss.days === 0
          ? 'no-figures'
          : loss.money === null
            ? 'no-price'
            : null,
  };
}

function siteCosts({ name, currency }: SiteRecord, units: readonly UnitCosts[]): SiteCosts {
  const own = units.filter(({ site }) => site === name);
  return {
    site: name,
    currency,
    units: own.filter(({ days }) => days > 0).length,
    ...sumWithUncertainty(own),
    before: sumOfLosses(own.map(({ before }) => before)),
  };
}

type Analysed = { unit: AnalysedUnit; losses: UnitLosses | null };

/** One month of a site; none before its record begins. */
function monthCosts(
  { name, currency }: SiteRecord,
  month: EnergyPeriod,
  { analysed, today }: { analysed: readonly Analysed[]; today: number },
): MonthCosts[] {
  const own = analysed.filter(({ unit }) => unit.record.site.name === name);
  const firstDay = Math.min(...own.map(({ losses }) => losses?.firstDay ?? Number.POSITIVE_INFINITY));
  if (firstDay > month.to) return [];
  const parts = own.flatMap(({ losses }) => losses?.lossIn(month) ?? []);
  return [
    {
      month: isoDay(month.from).slice(0, 7),
      site: name,
      currency,
      ...sumOfLosses(parts),
      isComplete: firstDay <= month.from && month.to < today,
    },
  ];
}

function plannedSavings(records: FleetRecords): FleetCosts['planned'] {
  const { planned, units } = records;
  const siteOf = new Map(units.map(({ record }) => [record.id, record.site]));
  return planned.flatMap((piece) => {
    const { unitId, tag, from, outage, cost } = piece;
    const site = siteOf.get(unitId);
    if (site === undefined) return [];
    const { name, currency, timeZone } = site;
    const saves = plannedSaves(piece, records);
    return { tag, site: name, from: isoInZone(from, timeZone), outage, currency, cost, saves };
  });
}
