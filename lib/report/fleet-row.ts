import type { State } from '@/lib/contract/results';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { localDay } from '@/lib/time/local-clock';
import {
  type CleaningMark,
  cleaningMarks,
  type FleetMark,
  probableMarks,
  round,
  suspectMark,
} from './fleet-marks';
import {
  DOWN,
  drawBand,
  drawTrace,
  POOR_SHARE,
  reducePoints,
  type ShareScale,
  type Trace,
  type TracePoint,
  tracePoints,
} from './fleet-trace';
import { type CleanByWords, cleanByInWords, healthInWords, widenedInWords } from './fleet-words';
import { STATE_WORDS } from './format/words';
import type { AnalysedUnit } from './records';
import { type DaySpan, shareOf } from './time-axis';

/** Where the clean-by bar lies, as shares of the axis; `isOpen` when P90 lies beyond it or beyond the horizon. */
type CleanByBar = { from: number; to: number; tick: number | null; isOpen: boolean; isPast: boolean };

/** One unit of the fleet, ready to draw; money and duty in the site's currency and W. */
export type FleetRow = {
  tag: string;
  service: string;
  site: string;
  state: State;
  used: number | null;
  /** Standard uncertainty of `used`. */
  usedUncertainty: number | null;
  trace: Trace;
  /** Last figure: shares across and down. */
  end: { x: number; y: number } | null;
  cleanings: CleaningMark[];
  /** Falls of the fouling that may have been cleanings nobody recorded. */
  probable: FleetMark[];
  band: string | null;
  bar: CleanByBar | null;
  /** Cause of missing or poor data; hatched from `from` to now where there is no figure any more. */
  absence: { at: number; text: string; from: number | null } | null;
  /** Data that may mislead, from `at` to now; null where they do not, and where the cause of poor data stands already. */
  suspect: FleetMark | null;
  cleanBy: CleanByWords;
  /** Whose record spreads P10 and P90, and by how much; null where nothing does. */
  widened: string | null;
  lostDuty: number | null;
  perDay: number | null;
  currency: string;
  usable: number | null;
  /** Local days behind the words, for order and export. */
  days: Record<'crossed' | 'p10' | 'p50' | 'p90' | 'suspect', number | null>;
  withinHorizon: number | null;
  /** The row in one sentence. */
  sentence: string;
};

export type FleetRowFrame = {
  span: DaySpan;
  scale: ShareScale;
  today: number;
  nowDays: number;
  now: number;
  points: number;
};

/** The row of one unit. */
export function fleetRow(unit: AnalysedUnit, frame: FleetRowFrame): FleetRow {
  const { trend, result, record } = unit;
  const allowance = allowanceOf(unit);
  const limit = trend === null || trend.governing === null ? null : trend.limits[trend.governing]!;
  const points = allowance === null ? [] : reducePoints(pointsOf(unit, allowance, frame), frame.points);
  const lastDay = lastFigureDay(unit);
  const state = trend?.state ?? 'no-data';
  const absence = absenceOf(trend, lastDay, frame);
  const cleanBy = cleanByInWords(trend, { today: frame.today, lastDay });
  const row: Omit<FleetRow, 'sentence'> = {
    tag: record.tag,
    service: record.unit.service ?? '',
    site: record.site.name,
    state,
    used: state === 'no-data' ? null : (trend?.allowanceUsed ?? null),
    usedUncertainty: state === 'no-data' ? null : shareUncertainty(trend, allowance),
    trace: drawTrace(points, frame.span, frame.scale),
    end: endOf(points, frame),
    cleanings: cleaningMarks(unit, frame),
    probable: probableMarks(trend, frame.span),
    band: allowance === null || trend === null ? null : bandOf(trend, allowance, frame),
    bar: trend === null || state === 'no-data' ? null : barOf(trend, frame),
    absence,
    suspect: absence === null ? suspectMark(trend, frame.span) : null,
    cleanBy,
    widened: trend === null || !cleanBy.isProjected ? null : widenedInWords(trend.widening),
    lostDuty: state === 'no-data' ? null : (trend?.lostDuty ?? null),
    perDay: state === 'no-data' ? null : (result?.cost?.perDay ?? null),
    currency: record.site.currency,
    usable: trend?.health.usable ?? null,
    days: {
      crossed: limit?.crossedDay ?? null,
      p10: limit?.p10Day ?? null,
      p50: limit?.p50Day ?? null,
      p90: limit?.p90Day ?? null,
      suspect: trend?.health.suspectSinceDay ?? null,
    },
    withinHorizon: limit?.withinHorizon ?? null,
  };
  return { ...row, sentence: sentenceOf(row) };
}

/** Fouling resistance of the limit reached first, or of the fouling-resistance limit where none governs [m²·K/W]. */
export function allowanceOf({ trend, record }: AnalysedUnit): number | null {
  const governing =
    trend === null || trend.governing === null ? null : trend.limits[trend.governing]!.foulingResistance;
  if (governing !== null && governing > 0) return governing;
  const stated = record.exchanger.limits.find((limit) => limit.kind === 'fouling-resistance');
  return stated === undefined ? null : stated.value;
}

function shareUncertainty(trend: UnitTrend | null, allowance: number | null): number | null {
  const uncertainty = trend?.foulingResistanceUncertainty ?? null;
  return uncertainty === null || allowance === null ? null : uncertainty / allowance;
}

function pointsOf(
  { daily, trend, cleanings, record }: AnalysedUnit,
  allowance: number,
  { span }: FleetRowFrame,
): TracePoint[] {
  const recorded = cleanings.map((cleaning) => localDay(cleaning.at, record.site.timeZone));
  const cycleStarts = [...recorded, ...(trend?.cycles ?? []).map((cycle) => cycle.startDay)];
  return tracePoints(daily, allowance, { span, cycleStarts });
}

function lastFigureDay({ daily }: AnalysedUnit): number | null {
  for (let row = daily.day.length - 1; row >= 0; row--)
    if (!Number.isNaN(daily.foulingResistance[row]!)) return daily.day[row]!;
  return null;
}

function endOf(points: TracePoint[], { span, scale }: FleetRowFrame): FleetRow['end'] {
  const last = points[points.length - 1];
  if (last === undefined) return null;
  const down = (scale.high - last.share) / (scale.high - scale.low);
  return { x: shareOf(span, last.day + 0.5), y: Math.round(Math.min(1, Math.max(0, down)) * DOWN) / DOWN };
}

function bandOf(trend: UnitTrend, allowance: number, frame: FleetRowFrame): string | null {
  const running = trend.cycles[trend.cycles.length - 1];
  const isProjected = trend.state !== 'over-limit' && trend.state !== 'no-data';
  if (!isProjected || trend.band === null || running === undefined) return null;
  return drawBand(trend.band, running.startDay, { span: frame.span, scale: frame.scale, allowance });
}

function barOf(trend: UnitTrend, { span, nowDays }: FleetRowFrame): CleanByBar | null {
  const limit = trend.governing === null ? null : trend.limits[trend.governing]!;
  if (limit === null) return null;
  const at = (day: number) => round(Math.min(1, Math.max(0, shareOf(span, day))));
  if (trend.state === 'over-limit') {
    if (limit.crossedDay === null) return null;
    return { from: at(limit.crossedDay), to: at(nowDays), tick: null, isOpen: false, isPast: true };
  }
  if (limit.p10Day === null || limit.p10Day >= span.to) return null;
  const isOpen = limit.p90Day === null || limit.p90Day >= span.to;
  const isTickShown = limit.p50Day !== null && limit.p50Day < span.to;
  return {
    from: at(Math.max(limit.p10Day, nowDays)),
    to: isOpen ? 1 : at(limit.p90Day!),
    tick: isTickShown ? at(Math.max(limit.p50Day!, nowDays)) : null,
    isOpen,
    isPast: false,
  };
}

function absenceOf(
  trend: UnitTrend | null,
  lastDay: number | null,
  { span }: FleetRowFrame,
): FleetRow['absence'] {
  const health = healthInWords(trend, POOR_SHARE);
  if (health === null) return null;
  const clamp = (share: number) => round(Math.min(0.98, Math.max(0, share)));
  const hatchFrom = lastDay === null ? 0 : clamp(shareOf(span, lastDay + 1));
  const at = health.since === null ? hatchFrom : clamp(shareOf(span, health.since));
  return { at, text: health.text, from: trend?.state === 'no-data' ? hatchFrom : null };
}

function sentenceOf(row: Omit<FleetRow, 'sentence'>): string {
  const used = row.used === null ? '' : `, ${Math.round(row.used * 100)} % of its allowance used`;
  const projected = row.cleanBy.isProjected ? 'projected clean-by: ' : '';
  const service = row.service === '' ? '' : `, ${row.service}`;
  const further = [
    ...(row.widened === null ? [] : [row.widened]),
    ...(row.suspect === null ? [] : [row.suspect.words]),
    ...row.probable.map(({ words }) => words),
  ].map((words) => `; ${words}`);
  return `${row.tag}${service}: ${STATE_WORDS[row.state]}${used}; ${projected}${row.cleanBy.main}, ${row.cleanBy.detail}${further.join('')}`;
}
