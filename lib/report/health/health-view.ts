import type { State } from '@/lib/contract/results';
import { HEALTH_DAYS } from '@/lib/core/pipeline/data-health';
import { formatNumber, MISSING } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import { countOf, REASON_WORDS } from '@/lib/report/format/words';
import type { FleetRecords } from '@/lib/report/records';
import { fleetStaleness } from '@/lib/report/staleness';
import { REASON_ADVICE } from '@/lib/report/unit/reason-advice';
import { parseUnitAddress, unitHref } from '@/lib/report/unit/unit-address';
import { localDay } from '@/lib/time/local-clock';
import { type HealthDay, usableShare } from './health-days';
import { fleetHealthInWords, healthWords } from './health-words';
import { reasonCounts } from './reason-counts';
import { fleetHealth, HEALTH_KINDS, type HealthKind, type UnitHealth } from './unit-health';

/** One of the last 30 days as it is drawn: share usable; `none`: no readings, `off`: at standstill all day. */
export type DayCell = { share: number } | 'none' | 'off';

export type HealthRow = {
  tag: string;
  service: string;
  state: State;
  kind: HealthKind;
  /** The unit over the days concerned, at the readings left out. */
  href: string;
  usable: string;
  days: DayCell[];
  /** The days in one sentence. */
  daysSentence: string;
  suspectSince: string;
  what: string;
  todo: string;
};

export type ReasonRow = {
  name: string;
  readings: string;
  share: string;
  units: string;
  /** Units it left out most of. */
  most: { tag: string; href: string; count: string }[];
  advice: string;
};

/** Everything the page of data health shows. */
export type HealthView = {
  today: string;
  units: number;
  sentence: string;
  staleness: string[];
  days: number;
  groups: Record<HealthKind, HealthRow[]>;
  reasons: ReasonRow[];
};

/** Units a reason names. */
const MOST_NAMED = 4;
/** Days shown before a unit's data turned bad [days]. */
const DAYS_BEFORE = 14;

/** How good the data of the fleet were in the last 30 days. */
export function healthView(records: FleetRecords, units: string | null): HealthView {
  const all = fleetHealth(records);
  const rows = all.map((unit) => healthRow(unit, units));
  const groups = Object.fromEntries(
    HEALTH_KINDS.map((kind) => [kind, rows.filter((row) => row.kind === kind)]),
  ) as HealthView['groups'];
  const counts = Object.fromEntries(HEALTH_KINDS.map((kind) => [kind, groups[kind].length])) as Record<
    HealthKind,
    number
  >;
  return {
    today: formatDay(localDay(records.now, records.sites[0]?.timeZone ?? 'UTC')),
    units: rows.length,
    sentence: fleetHealthInWords(counts),
    staleness: fleetStaleness(records),
    days: HEALTH_DAYS,
    groups,
    reasons: reasonRows(all, units),
  };
}

function healthRow(unit: UnitHealth, units: string | null): HealthRow {
  const { tag, service, state, kind, usable, suspectSinceDay } = unit;
  return {
    tag,
    service,
    state,
    kind,
    href: hrefOf(unit, units),
    usable: usable === null ? MISSING : `${formatNumber(100 * usable, 0)} %`,
    days: unit.days.map(dayCell),
    daysSentence: daysInWords(unit),
    suspectSince: suspectSinceDay === null ? MISSING : formatDay(suspectSinceDay),
    ...healthWords(unit),
  };
}

/** From shortly before it began, or the 30 days, to today. */
function hrefOf({ tag, suspectSinceDay, sinceDay, days, today }: UnitHealth, units: string | null): string {
  const began = suspectSinceDay ?? sinceDay ?? today;
  const fromDay = Math.min(began - DAYS_BEFORE, days[0]!.day);
  const address = { ...parseUnitAddress(tag, {}), units };
  return unitHref(address, { period: 'custom', fromDay, toDay: today }, 'left-out');
}

function dayCell(day: HealthDay): DayCell {
  if (day.readings === 0) return 'none';
  const share = usableShare(day);
  return share === null ? 'off' : { share: Math.min(1, share) };
}

function daysInWords({ tag, days }: UnitHealth): string {
  const cells = days.map(dayCell);
  const without = cells.filter((cell) => cell === 'none').length;
  const off = cells.filter((cell) => cell === 'off').length;
  const poor = cells.filter((cell) => typeof cell === 'object' && cell.share < 0.5).length;
  const parts = [
    `${countOf(poor, 'day')} with fewer than half of the readings usable`,
    ...(without > 0 ? [`${countOf(without, 'day')} without readings`] : []),
    ...(off > 0 ? [`${countOf(off, 'day')} at standstill`] : []),
  ];
  return `${tag}, last ${days.length} days: ${parts.join(', ')}`;
}

function reasonRows(all: UnitHealth[], units: string | null): ReasonRow[] {
  const readings = all.reduce(
    (sum, { days }) => sum + days.reduce((own, day) => own + day.readings - day.off, 0),
    0,
  );
  const byTag = new Map(all.map((unit) => [unit.tag, unit]));
  return reasonCounts(all).map(({ reason, readings: count, units: hit }) => ({
    name: REASON_WORDS[reason],
    readings: formatNumber(count, 0),
    share: sharePercent(count / readings),
    units: formatNumber(hit.length, 0),
    most: hit.slice(0, MOST_NAMED).map(({ tag, readings: own }) => ({
      tag,
      href: hrefOf(byTag.get(tag)!, units),
      count: formatNumber(own, 0),
    })),
    advice: REASON_ADVICE[reason].advice,
  }));
}

function sharePercent(share: number): string {
  if (share < 0.001) return 'under 0.1 %';
  return `${formatNumber(100 * share, share < 0.1 ? 1 : 0)} %`;
}
