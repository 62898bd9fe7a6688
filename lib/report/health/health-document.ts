import type { DataHealth } from '@/lib/contract/data-health';
import type { BalanceDrift } from '@/lib/core/pipeline/balance-drift';
import { HEALTH_DAYS } from '@/lib/core/pipeline/data-health';
import type { FleetRecords } from '@/lib/report/records';
import { isoDay } from '@/lib/time/calendar-day';
import { reasonCounts } from './reason-counts';
import { fleetHealth, type UnitHealth } from './unit-health';

/** The contract's data health of the fleet, what needs a person first. */
export function healthDocument(records: FleetRecords): DataHealth {
  const units = fleetHealth(records);
  return {
    asOf: records.units.some(({ trend }) => trend !== null) ? new Date(records.now).toISOString() : null,
    days: HEALTH_DAYS,
    units: units.map(unitDocument),
    reasons: reasonCounts(units).map(({ units: hit, ...rest }) => ({ ...rest, units: hit.length })),
  };
}

function unitDocument(unit: UnitHealth): DataHealth['units'][number] {
  const { tag, site, service, state, kind, usable, worstReason, sinceDay, suspectSinceDay, drift, days } =
    unit;
  const total = (name: 'readings' | 'accepted') => days.reduce((sum, day) => sum + day[name], 0);
  return {
    tag,
    site,
    service,
    state,
    kind,
    usable,
    worstReason,
    since: dayOrNull(sinceDay),
    suspectSince: dayOrNull(suspectSinceDay),
    drift: drift === null ? null : driftDocument(drift),
    readings: total('readings'),
    accepted: total('accepted'),
  };
}

function driftDocument({ sinceDay, ...rest }: BalanceDrift) {
  return { ...rest, since: isoDay(sinceDay) };
}

function dayOrNull(day: number | null): string | null {
  return day === null ? null : isoDay(day);
}
