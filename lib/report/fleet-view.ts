import type { State } from '@/lib/contract/results';
import { DAY_MS } from '@/lib/time/calendar-day';
import { localClock } from '@/lib/time/local-clock';
import type { FleetAddress } from './fleet-address';
import { type CleaningMark, plannedMarks } from './fleet-marks';
import { type FleetRow, type FleetRowFrame, fleetRow } from './fleet-row';
import { fleetSummary } from './fleet-summary';
import type { ShareScale } from './fleet-trace';
import { type DisplayUnit, displayUnit } from './format/display-unit';
import { formatDay } from './format/time';
import type { UnitSystem } from './format/unit-system';
import type { AnalysedUnit, FleetRecords, OutageRecord, PlannedRecord } from './records';
import { fleetStaleness } from './staleness';
import { addMonths, type DaySpan, type MonthTick, monthTicks, shareOf, spanInWords } from './time-axis';

export type OutageBand = { site: string; name: string; from: number; to: number; words: string };

/** Everything the fleet page shows, small enough to travel: pictures as path data, figures in SI. */
export type FleetView = {
  today: string;
  /** Share of the axis at which now lies. */
  now: number;
  span: string;
  /** Ends of the axis in words, for the small axis of a card. */
  ends: [string, string];
  months: MonthTick[];
  outages: OutageBand[];
  scale: ShareScale;
  rows: FleetRow[];
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

/** Points of all rows together; a row has at most `MOST_POINTS`, and a few in a fleet of thousands. */
const POINT_BUDGET = 400_000;
const MOST_POINTS = 300;
const FEWEST_POINTS = 24;
/** The scale shows a little below clean and above the limit, more only when a unit is there, at most twice the limit [-]. */
const SCALE_LOW = -0.12;
const SCALE_HIGH = 1.25;
const SCALE_HIGHEST = 2;

/** The fleet on one time axis. */
export function fleetView(
  records: FleetRecords,
  address: Pick<FleetAddress, 'back' | 'ahead'>,
  system: UnitSystem,
): FleetView {
  const zone = records.sites[0]?.timeZone ?? 'UTC';
  const nowDays = localClock(records.now, zone) / DAY_MS;
  const today = Math.floor(nowDays);
  const span = { from: addMonths(today, -address.back), to: addMonths(today, address.ahead) };
  const scale = shareScale(records.units);
  const frame: FleetRowFrame = {
    span,
    scale,
    today,
    nowDays,
    now: records.clock,
    points: pointsPerRow(records.units.length),
  };
  const planned = plannedByUnit(records.planned);
  const rows = records.units.map((unit) =>
    withPlanned(fleetRow(unit, frame), plannedMarks(planned.get(unit.record.id) ?? [], unit, span)),
  );
  const largest = Math.max(0, ...rows.map((row) => Math.abs(row.lostDuty ?? 0)));
  const lostUnit = displayUnit('power', system, largest);
  const currencies = new Set(records.sites.map((site) => site.currency));
  return {
    today: formatDay(today),
    now: shareOf(span, nowDays),
    span: spanInWords(span),
    ends: [formatDay(span.from), formatDay(span.to)],
    months: monthTicks(span),
    outages: outageBands(records, span),
    scale,
    rows,
    sites: [...new Set(records.sites.map((site) => site.name))],
    counts: countStates(rows),
    summary: fleetSummary(rows, { today, system }),
    staleness: fleetStaleness(records),
    lostUnit,
    lostDecimals: largest / lostUnit.factor >= 100 ? 0 : 1,
    currency: currencies.size === 1 ? [...currencies][0]! : null,
    system,
  };
}

function plannedByUnit(planned: readonly PlannedRecord[]): Map<number, PlannedRecord[]> {
  const byUnit = new Map<number, PlannedRecord[]>();
  for (const piece of planned) byUnit.set(piece.unitId, [...(byUnit.get(piece.unitId) ?? []), piece]);
  return byUnit;
}

function withPlanned(row: FleetRow, planned: CleaningMark[]): FleetRow {
  if (planned.length === 0) return row;
  const sentence = [row.sentence, ...planned.map(({ words }) => words)].join('; ');
  return { ...row, cleanings: [...row.cleanings, ...planned], sentence };
}

function pointsPerRow(units: number): number {
  return Math.min(MOST_POINTS, Math.max(FEWEST_POINTS, Math.floor(POINT_BUDGET / Math.max(1, units))));
}

function shareScale(units: AnalysedUnit[]): ShareScale {
  const used = units.map((unit) => unit.trend?.allowanceUsed ?? 0);
  const highest = used.reduce((most, share) => Math.max(most, share), 0);
  return { low: SCALE_LOW, high: Math.min(SCALE_HIGHEST, Math.max(SCALE_HIGH, highest + 0.1)) };
}

function outageBands(records: FleetRecords, span: DaySpan): OutageBand[] {
  const sites = new Map(records.sites.map((site) => [site.id, site]));
  const bands = records.outages.map((outage) => outageBand(outage, sites.get(outage.siteId), span));
  return bands.filter((band) => band !== null).sort((a, b) => a.from - b.from);
}

function outageBand(
  outage: OutageRecord,
  site: FleetRecords['sites'][number] | undefined,
  span: DaySpan,
): OutageBand | null {
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

function countStates(rows: FleetRow[]): Record<State, number> {
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
