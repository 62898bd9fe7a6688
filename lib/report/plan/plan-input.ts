import type { PlannedOutage, PlanRequest } from '@/lib/contract/plan';
import type { PlanInput, PlanOutage } from '@/lib/core/plan/plan-input';
import type { FleetRecords } from '@/lib/report/records';
import { dayNumber } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import { startOfLocalDay } from '@/lib/time/local-day';
import { localMoment } from '@/lib/time/local-moment';
import { plannedUnit } from './planned-unit';
import type { LeftOut } from './planning';

const DAYS_PER_WEEK = 7;

/**
 * What a plan is made from: the request and the fleet's stored results, from the day after the newest of them on. `input` is
 * null where no unit of the fleet can be planned.
 */
export function planInput(
  fleet: FleetRecords,
  request: PlanRequest,
): { input: PlanInput | null; leftOut: LeftOut[] } {
  const units = fleet.units.filter(
    ({ record }) => request.site === undefined || record.site.name === request.site,
  );
  const todays = units.flatMap(({ record, result }) =>
    result?.asOf == null ? [] : [localDay(Date.parse(result.asOf), record.site.timeZone)],
  );
  const from = todays.length === 0 ? null : Math.max(...todays) + 1;
  const planned = units.map((unit) =>
    plannedUnit(unit, {
      supplies: fleet.supplies.filter(({ siteId }) => siteId === unit.record.site.id),
      confidence: request.confidence,
      from: from ?? 0,
    }),
  );
  const leftOut = planned.flatMap((each) => ('leftOut' in each ? [each.leftOut] : []));
  const able = planned.flatMap((each) => ('unit' in each ? [each.unit] : []));
  if (from === null || able.length === 0) return { input: null, leftOut };
  const timeZone = zoneOf(fleet, request);
  return {
    leftOut,
    input: {
      from,
      to: from + request.weeks * DAYS_PER_WEEK,
      confidence: request.confidence,
      outages: request.outages.map((outage) =>
        outageOf(outage, outage.site === undefined ? timeZone : zoneOf(fleet, outage)),
      ),
      crews: [request.online ?? []]
        .flat()
        .map(({ site, crewHoursPerWeek }) => ({ site: site ?? null, hoursPerWeek: crewHoursPerWeek })),
      notTogether: request.notTogether,
      units: able,
      locked: request.locked.map(({ tag, start }) => ({ tag, start: momentOf(start, timeZone) })),
    },
  };
}

/** The clock a site's days are cut by: its own, or that of the fleet's first site. */
export function zoneOf(
  { sites }: Pick<FleetRecords, 'sites'>,
  { site }: { site?: string | undefined },
): string {
  return (sites.find(({ name }) => name === site) ?? sites[0])?.timeZone ?? 'UTC';
}

function outageOf(outage: PlannedOutage, timeZone: string): PlanOutage {
  const { name, crewHours, site } = outage;
  const { from, to } = outageInstants(outage, timeZone);
  return {
    name,
    from: localMoment(from, timeZone),
    to: localMoment(to, timeZone),
    crewHours: crewHours ?? null,
    site: site ?? null,
  };
}

/** An outage as instants [ms] by the clock of its site; a day counts to its end. */
export function outageInstants(
  { from, to }: Pick<PlannedOutage, 'from' | 'to'>,
  timeZone: string,
): { from: number; to: number } {
  return {
    from: isDay(from) ? startOfLocalDay(dayNumber(from), timeZone) : Date.parse(from),
    to: isDay(to) ? startOfLocalDay(dayNumber(to) + 1, timeZone) : Date.parse(to),
  };
}

function isDay(text: string): boolean {
  return text.length === 'YYYY-MM-DD'.length;
}

function momentOf(text: string, timeZone: string): number {
  return isDay(text) ? dayNumber(text) : localMoment(Date.parse(text), timeZone);
}
