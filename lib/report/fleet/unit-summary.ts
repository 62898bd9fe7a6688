import type { State, UnitResult } from '@/lib/contract/results';
import type { LimitResult, UnitTrend, Widening } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { type SummaryTrace, traceDays, writeTrace } from './summary-trace';

/**
 * What lists of the whole fleet show of a unit, kept with its result: a page of thousands must not read their records. What
 * hangs on the reader (period, today, measures) is put to it when a row is drawn; what people enter is read apart.
 */
export type UnitSummary = {
  version: typeof SUMMARY_VERSION;
  /** Instants of the results and of the newest reading used [ms]. */
  asOf: number | null;
  lastReading: number | null;
  state: State;
  allowanceUsed: number | null;
  foulingResistanceUncertainty: number | null;
  /** The governing limit; null where none governs. */
  limit: Pick<
    LimitResult,
    'foulingResistance' | 'p10Day' | 'p50Day' | 'p90Day' | 'withinHorizon' | 'crossedDay'
  > | null;
  horizonDays: number;
  /** [W], and money a day in the currency of the site. */
  lostDuty: number | null;
  perDay: number | null;
  widening: Widening;
  probable: { day: number; share: number | null }[];
  health: Pick<UnitTrend['health'], 'usable' | 'worstReason' | 'sinceDay' | 'suspectSinceDay'>;
  /** First days of the cycles that the trace shows. */
  cycleStarts: number[];
  /** The projected band, thinned as a row draws it, in local days. */
  band: SummaryBand | null;
  /** Last local day with a figure; null without any. */
  lastDay: number | null;
  trace: SummaryTrace;
};

/** Fouling resistance projected for some local days [m²·K/W]; null where the projection is not finite. */
export type SummaryBand = { day: number[]; p10: (number | null)[]; p90: (number | null)[] };

/** Another version is worked out anew from the trend. */
export const SUMMARY_VERSION = 1;
/** The longest period shown back, with room for zones east and west of one another [days]. */
export const SUMMARY_DAYS = 560;
/** A row draws about so many points of a band [-]. */
const BAND_POINTS = 24;

/** `daily` holds at least the last `SUMMARY_DAYS` up to its newest day. */
export type SummarySource = {
  trend: UnitTrend;
  result: Pick<UnitResult, 'asOf' | 'cost'> | null;
  daily: DailyColumns;
};

/** The summary to be kept with a result. */
export function unitSummary({ trend, result, daily }: SummarySource): UnitSummary {
  const newest = daily.day[daily.day.length - 1] ?? 0;
  const from = newest - SUMMARY_DAYS;
  return {
    ...judgementOf(trend),
    version: SUMMARY_VERSION,
    asOf: result?.asOf ? Date.parse(result.asOf) : null,
    allowanceUsed: trend.allowanceUsed,
    foulingResistanceUncertainty: trend.foulingResistanceUncertainty,
    lostDuty: trend.lostDuty,
    perDay: result?.cost?.perDay ?? null,
    widening: trend.widening,
    probable: trend.probableCleanings.map(({ day, share }) => ({ day, share })),
    cycleStarts: trend.cycles.map(({ startDay }) => startDay).filter((day) => day >= from),
    band: bandOf(trend),
    lastDay: lastFigureDay(daily),
    trace: writeTrace(traceDays(daily, from)),
  };
}

/** What the words of a clean-by day hang on. */
export type Judgement = Pick<UnitSummary, 'lastReading' | 'state' | 'limit' | 'horizonDays' | 'health'>;

export function judgementOf(trend: UnitTrend): Judgement {
  const { lastReading, state, horizonDays } = trend;
  return { lastReading, state, horizonDays, limit: limitOf(trend), health: healthOf(trend) };
}

function limitOf({ governing, limits }: UnitTrend): UnitSummary['limit'] {
  if (governing === null) return null;
  const { foulingResistance, p10Day, p50Day, p90Day, withinHorizon, crossedDay } = limits[governing]!;
  return { foulingResistance, p10Day, p50Day, p90Day, withinHorizon, crossedDay };
}

function healthOf({ health }: UnitTrend): UnitSummary['health'] {
  const { usable, worstReason, sinceDay, suspectSinceDay } = health;
  return { usable, worstReason, sinceDay, suspectSinceDay };
}

function lastFigureDay({ day, foulingResistance }: DailyColumns): number | null {
  for (let row = day.length - 1; row >= 0; row--)
    if (!Number.isNaN(foulingResistance[row]!)) return day[row]!;
  return null;
}

function bandOf({ band, cycles, state }: UnitTrend): SummaryBand | null {
  const running = cycles[cycles.length - 1];
  const isProjected = state !== 'over-limit' && state !== 'no-data';
  if (band === null || running === undefined || !isProjected) return null;
  const thinned: SummaryBand = { day: [], p10: [], p90: [] };
  const step = Math.max(1, Math.floor(band.ageDays.length / BAND_POINTS));
  for (let at = 0; at < band.ageDays.length; at += step) {
    thinned.day.push(running.startDay + band.ageDays[at]!);
    thinned.p10.push(finite(band.p10[at]!));
    thinned.p90.push(finite(band.p90[at]!));
  }
  return thinned;
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
