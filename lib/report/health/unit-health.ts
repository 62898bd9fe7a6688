import type { State } from '@/lib/contract/results';
import type { Reason } from '@/lib/core/checks/reasons';
import type { BalanceDrift } from '@/lib/core/pipeline/balance-drift';
import type { AnalysedUnit, FleetRecords } from '@/lib/report/records';
import { dayNumber } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import { type HealthDay, healthDays, leftOutByReason } from './health-days';

/** What its data need of a person: none arrive; they may mislead; few can be used; nothing. */
export const HEALTH_KINDS = ['suspect', 'few', 'fine', 'no-data'] as const;
export type HealthKind = (typeof HEALTH_KINDS)[number];

/** Below this share of usable readings a person should look [-] (own choice). */
export const ENOUGH_SHARE = 0.8;

/** The data of one unit over the last 30 days of its record. */
export type UnitHealth = {
  tag: string;
  service: string;
  site: string;
  state: State;
  kind: HealthKind;
  /** Today of its site. */
  today: number;
  usable: number | null;
  worstReason: Reason | null;
  sinceDay: number | null;
  drift: BalanceDrift | null;
  suspectSinceDay: number | null;
  /** False where no reading was ever accepted, nor left out. */
  hasReadings: boolean;
  days: HealthDay[];
  leftOut: Map<Reason, number>;
};

/** The data of every unit, what needs a person first; of two alike the one with fewer usable readings. */
export function fleetHealth({ units, now }: Pick<FleetRecords, 'units' | 'now'>): UnitHealth[] {
  return units.map((unit) => unitHealth(unit, now)).sort(byNeed);
}

function unitHealth({ record, trend, result, daily }: AnalysedUnit, now: number): UnitHealth {
  const today = result?.asOf ? dayNumber(result.asOf.slice(0, 10)) : localDay(now, record.site.timeZone);
  const days = healthDays(daily, today);
  const health = trend?.health;
  const known = {
    state: trend?.state ?? 'no-data',
    usable: health?.usable ?? null,
    drift: health?.drift ?? null,
    suspectSinceDay: health?.suspectSinceDay ?? null,
  };
  return {
    tag: record.tag,
    service: record.unit.service ?? '',
    site: record.site.name,
    ...known,
    kind: kindOf(known),
    today,
    worstReason: health?.worstReason ?? null,
    sinceDay: health?.sinceDay ?? null,
    hasReadings: health !== undefined && (health.usable !== null || health.sinceDay !== null),
    days,
    leftOut: leftOutByReason(days),
  };
}

function kindOf(known: Pick<UnitHealth, 'state' | 'usable' | 'drift' | 'suspectSinceDay'>): HealthKind {
  if (known.state === 'no-data') return 'no-data';
  if (known.drift !== null || known.suspectSinceDay !== null) return 'suspect';
  return known.usable !== null && known.usable < ENOUGH_SHARE ? 'few' : 'fine';
}

function byNeed(a: UnitHealth, b: UnitHealth): number {
  return (
    HEALTH_KINDS.indexOf(a.kind) - HEALTH_KINDS.indexOf(b.kind) ||
    (a.usable ?? 1) - (b.usable ?? 1) ||
    (a.suspectSinceDay ?? a.sinceDay ?? 0) - (b.suspectSinceDay ?? b.sinceDay ?? 0) ||
    a.tag.localeCompare(b.tag, 'en', { numeric: true })
  );
}
