import type { State } from '@/lib/contract/results';
import { localDay } from '@/lib/time/local-clock';
import { type FleetUnit, fleetAllowance } from './fleet/fleet-unit';
import { POOR_SHARE, readTrace } from './fleet/summary-trace';
import type { UnitSummary } from './fleet/unit-summary';
import {
  type CleaningMark,
  cleaningMarks,
  type FleetMark,
  plannedMarks,
  probableMarks,
  round,
  suspectMark,
} from './fleet-marks';
import {
  DOWN,
  drawBand,
  drawTrace,
  reducePoints,
  type ShareScale,
  type Trace,
  type TracePoint,
  tracePoints,
} from './fleet-trace';
import { type CleanByWords, cleanByInWords, healthInWords, widenedInWords } from './fleet-words';
import { STATE_WORDS } from './format/words';
import type { PlannedRecord } from './records';
import { type DaySpan, shareOf } from './time-axis';

/** Where the clean-by bar lies, as shares of the axis; `isOpen` when P90 lies beyond it or beyond the horizon. */
type CleanByBar = { from: number; to: number; tick: number | null; isOpen: boolean; isPast: boolean };

/** What rows are sorted, counted and exported by; money in the site's currency, duty in W, `usable` as a share. */
export type FleetKeys = {
  tag: string;
  service: string;
  site: string;
  state: State;
  lostDuty: number | null;
  perDay: number | null;
  currency: string;
  usable: number | null;
  /** Local days behind the words. */
  days: Record<'crossed' | 'p10' | 'p50' | 'p90' | 'suspect', number | null>;
  withinHorizon: number | null;
};

/** What a row says, but for its picture. */
export type FleetFigures = FleetKeys & {
  used: number | null;
  /** Standard uncertainty of `used`. */
  usedUncertainty: number | null;
  /** Falls of the fouling that may have been cleanings nobody recorded. */
  probable: FleetMark[];
  /** Cause of missing or poor data; hatched from `from` to now where there is no figure any more. */
  absence: { at: number; text: string; from: number | null } | null;
  /** Data that may mislead, from `at` to now; null where they do not, and where the cause of poor data stands already. */
  suspect: FleetMark | null;
  cleanBy: CleanByWords;
  /** Whose record spreads P10 and P90, and by how much; null where nothing does. */
  widened: string | null;
};

/** One unit of the fleet, ready to draw. */
export type FleetRow = FleetFigures & {
  trace: Trace;
  /** Last figure: shares across and down. */
  end: { x: number; y: number } | null;
  cleanings: CleaningMark[];
  band: string | null;
  bar: CleanByBar | null;
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

/** The row of one unit, `planned` its dated work that waits to be done. */
export function fleetRow(
  unit: FleetUnit,
  frame: FleetRowFrame,
  planned: readonly PlannedRecord[] = [],
): FleetRow {
  const { summary } = unit;
  const allowance = fleetAllowance(unit);
  const points = allowance === null ? [] : reducePoints(pointsOf(unit, allowance, frame), frame.points);
  const figures = fleetFigures(unit, frame);
  const work = plannedMarks(planned, unit, frame.span);
  return {
    ...figures,
    trace: drawTrace(points, frame.span, frame.scale),
    end: endOf(points, frame),
    cleanings: [...cleaningMarks(unit, frame), ...work],
    band: allowance === null || !summary?.band ? null : drawBand(summary.band, { ...frame, allowance }),
    bar: summary === null || summary.state === 'no-data' ? null : barOf(summary, frame),
    sentence: [sentenceOf(figures), ...work.map(({ words }) => words)].join('; '),
  };
}

/** What the row of a unit says. */
export function fleetFigures(unit: FleetUnit, frame: FleetRowFrame): FleetFigures {
  const { summary } = unit;
  const isJudged = summary !== null && summary.state !== 'no-data';
  const absence = absenceOf(summary, frame);
  const cleanBy = cleanByInWords(summary, { today: frame.today, lastDay: summary?.lastDay ?? null });
  return {
    ...keysOf(unit),
    used: isJudged ? summary.allowanceUsed : null,
    usedUncertainty: isJudged ? shareUncertainty(summary, fleetAllowance(unit)) : null,
    probable: probableMarks(summary, frame.span),
    absence,
    suspect: absence === null ? suspectMark(summary, frame.span) : null,
    cleanBy,
    widened: summary === null || !cleanBy.isProjected ? null : widenedInWords(summary.widening),
  };
}

/** What rows are sorted, counted and exported by: the same whatever period and day they are shown for. */
export function keysOf({ tag, service, site, summary }: FleetUnit): FleetKeys {
  const state = summary?.state ?? 'no-data';
  const limit = summary?.limit ?? null;
  return {
    tag,
    service,
    site: site.name,
    state,
    lostDuty: state === 'no-data' ? null : (summary?.lostDuty ?? null),
    perDay: state === 'no-data' ? null : (summary?.perDay ?? null),
    currency: site.currency,
    usable: summary?.health.usable ?? null,
    days: {
      crossed: limit?.crossedDay ?? null,
      p10: limit?.p10Day ?? null,
      p50: limit?.p50Day ?? null,
      p90: limit?.p90Day ?? null,
      suspect: summary?.health.suspectSinceDay ?? null,
    },
    withinHorizon: limit?.withinHorizon ?? null,
  };
}

function shareUncertainty(summary: UnitSummary, allowance: number | null): number | null {
  const uncertainty = summary.foulingResistanceUncertainty;
  return uncertainty === null || allowance === null ? null : uncertainty / allowance;
}

function pointsOf({ summary, cleanings, site }: FleetUnit, allowance: number, { span }: FleetRowFrame) {
  if (summary === null) return [];
  const recorded = cleanings.map((cleaning) => localDay(cleaning.at, site.timeZone));
  return tracePoints(readTrace(summary.trace), allowance, {
    span,
    cycleStarts: [...recorded, ...summary.cycleStarts],
  });
}

function endOf(points: TracePoint[], { span, scale }: FleetRowFrame): FleetRow['end'] {
  const last = points[points.length - 1];
  if (last === undefined) return null;
  const down = (scale.high - last.share) / (scale.high - scale.low);
  return { x: shareOf(span, last.day + 0.5), y: Math.round(Math.min(1, Math.max(0, down)) * DOWN) / DOWN };
}

function barOf({ limit, state }: UnitSummary, { span, nowDays }: FleetRowFrame): CleanByBar | null {
  if (limit === null) return null;
  const at = (day: number) => round(Math.min(1, Math.max(0, shareOf(span, day))));
  if (state === 'over-limit') {
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

function absenceOf(summary: UnitSummary | null, { span }: FleetRowFrame): FleetRow['absence'] {
  const health = healthInWords(summary, POOR_SHARE);
  if (summary === null || health === null) return null;
  const { lastDay, state } = summary;
  const clamp = (share: number) => round(Math.min(0.98, Math.max(0, share)));
  const hatchFrom = lastDay === null ? 0 : clamp(shareOf(span, lastDay + 1));
  const at = health.since === null ? hatchFrom : clamp(shareOf(span, health.since));
  return { at, text: health.text, from: state === 'no-data' ? hatchFrom : null };
}

function sentenceOf(row: FleetFigures): string {
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
