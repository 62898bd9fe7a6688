import type { State } from '@/lib/contract/results';
import { DAY_MS } from '@/lib/time/calendar-day';
import { localClock } from '@/lib/time/local-clock';
import type { FleetUnit } from './fleet/fleet-unit';
import type { FleetAddress } from './fleet-address';
import type { FleetKeys, FleetRowFrame } from './fleet-row';
import { fleetSummary } from './fleet-summary';
import type { ShareScale } from './fleet-trace';
import { type DisplayUnit, displayUnit } from './format/display-unit';
import { formatDay } from './format/time';
import type { UnitSystem } from './format/unit-system';
import type { OutageRecord, PlannedRecord, SiteRecord } from './records';
import { type FleetAge, stalenessInWords } from './staleness';
import { addMonths, type DaySpan, type MonthTick, monthTicks, shareOf, spanInWords } from './time-axis';

export type OutageBand = { site: string; name: string; from: number; to: number; words: string };

/** Everything the fleet page shows around its rows. */
export type FleetView = {
  /** How many there are. */
  units: number;
  today: string;
  /** Share of the axis at which now lies. */
  now: number;
  span: string;
  /** Ends of the axis in words, for the small axis of a card. */
  ends: [string, string];
  months: MonthTick[];
  outages: OutageBand[];
  scale: ShareScale;
  sites: string[];
  counts: Record<State, number>;
  summary: string[];
  /** What must be said of the age of all this; empty where it is fresh. */
  staleness: string[];
  lostUnit: DisplayUnit;
  /** Decimals all lost duties share, so that they align. */
  lostDecimals: number;
  /** The one currency of the fleet; null when its sites differ. */
  currency: string | null;
  system: UnitSystem;
};

/** Points of a row; fewer where there are so many rows that most are scrolled through and never looked at. */
const MOST_POINTS = 300;
const LARGE_FLEET = 1_000;
const FEWER_POINTS = 120;
/** The scale shows a little below clean and above the limit, more only when a unit is there, at most twice the limit [-]. */
const SCALE_LOW = -0.12;
const SCALE_HIGH = 1.25;
const SCALE_HIGHEST = 2;

/** What the fleet page is drawn from. */
export type Fleet = FleetAge & {
  units: FleetUnit[];
  /** What `units` are sorted and counted by, in the same order. */
  keys: readonly FleetKeys[];
  outages: OutageRecord[];
  /** Dated work that waits to be done, by the number of its unit. */
  planned: ReadonlyMap<number, PlannedRecord[]>;
};

/** Dated work by the number of its unit. */
export function plannedByUnit(planned: readonly PlannedRecord[]): Map<number, PlannedRecord[]> {
  const byUnit = new Map<number, PlannedRecord[]>();
  for (const piece of planned) {
    const known = byUnit.get(piece.unitId);
    if (known === undefined) byUnit.set(piece.unitId, [piece]);
    else known.push(piece);
  }
  return byUnit;
}

/** The axis and scale that all rows share. */
export function fleetFrame(fleet: Fleet, address: Pick<FleetAddress, 'back' | 'ahead'>): FleetRowFrame {
  const nowDays = localClock(fleet.now, fleet.sites[0]?.timeZone ?? 'UTC') / DAY_MS;
  const today = Math.floor(nowDays);
  return {
    span: { from: addMonths(today, -address.back), to: addMonths(today, address.ahead) },
    scale: shareScale(fleet.units),
    today,
    nowDays,
    now: fleet.clock,
    points: fleet.units.length > LARGE_FLEET ? FEWER_POINTS : MOST_POINTS,
  };
}

/** The fleet on one time axis, but for its rows. */
export function fleetView(
  fleet: Fleet,
  { span, scale, today, nowDays }: FleetRowFrame,
  system: UnitSystem,
): FleetView {
  const largest = fleet.keys.reduce((most, { lostDuty }) => Math.max(most, Math.abs(lostDuty ?? 0)), 0);
  const lostUnit = displayUnit('power', system, largest);
  const currencies = new Set(fleet.sites.map((site) => site.currency));
  return {
    units: fleet.units.length,
    today: formatDay(today),
    now: shareOf(span, nowDays),
    span: spanInWords(span),
    ends: [formatDay(span.from), formatDay(span.to)],
    months: monthTicks(span),
    outages: outageBands(fleet, span),
    scale,
    sites: [...new Set(fleet.sites.map((site) => site.name))],
    counts: countStates(fleet.keys),
    summary: fleetSummary(fleet.keys, { today, system }),
    staleness: stalenessInWords(fleet),
    lostUnit,
    lostDecimals: largest / lostUnit.factor >= 100 ? 0 : 1,
    currency: currencies.size === 1 ? [...currencies][0]! : null,
    system,
  };
}

function shareScale(units: FleetUnit[]): ShareScale {
  const highest = units.reduce((most, { summary }) => Math.max(most, summary?.allowanceUsed ?? 0), 0);
  return { low: SCALE_LOW, high: Math.min(SCALE_HIGHEST, Math.max(SCALE_HIGH, highest + 0.1)) };
}

function outageBands(records: Fleet, span: DaySpan): OutageBand[] {
  const sites = new Map(records.sites.map((site) => [site.id, site]));
  const bands = records.outages.map((outage) => outageBand(outage, sites.get(outage.siteId), span));
  return bands.filter((band) => band !== null).sort((a, b) => a.from - b.from);
}

function outageBand(outage: OutageRecord, site: SiteRecord | undefined, span: DaySpan): OutageBand | null {
  if (site === undefined) return null;
  const [first, last] = [outage.from, outage.to].map((at) => localClock(at, site.timeZone) / DAY_MS) as [
    number,
    number,
  ];
  const [from, to] = [Math.max(0, shareOf(span, first)), Math.min(1, shareOf(span, last))];
  if (to <= 0 || from >= 1) return null;
  return {
    site: site.name,
    name: outage.name,
    from,
    to,
    words: `${outage.name}, ${formatDay(first)} to ${formatDay(last)}`,
  };
}

function countStates(rows: readonly FleetKeys[]): Record<State, number> {
  const counts: Record<State, number> = {
    clean: 0,
    fouling: 0,
    'near-limit': 0,
    'over-limit': 0,
    'no-data': 0,
  };
  for (const row of rows) counts[row.state]++;
  return counts;
}
