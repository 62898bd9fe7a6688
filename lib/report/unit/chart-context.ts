import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { typicalInterval } from '@/lib/core/series/typical-interval';
import { median } from '@/lib/core/stats/quantile';
import type { ChartLane, ChartMark, ChartSpan, ChartView } from '@/lib/report/format/chart-view';
import { type TimeAxis, timeAxis } from '@/lib/report/format/time-axis';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { UnitRecords } from '@/lib/report/records';
import { basisMarks, cleaningMarks, outageSpans, plannedMarks, probableMarks } from './chart-parts';
import { judgedSpans } from './judged-spans';
import { type Tally, tallyReadings } from './left-out-lane';
import { reducedTimes } from './reduced-times';
import type { Period } from './unit-period';

/** What every chart of the page is built from. */
export type ChartContext = {
  records: UnitRecords;
  system: UnitSystem;
  daily: DailyColumns;
  trend: UnitTrend | null;
  axis: TimeAxis;
  /** Interval at which readings usually come [ms]. */
  interval: number;
  marks: ChartMark[];
  spans: ChartSpan[];
  /** Columns of pixels that a chart's past is reduced to; infinite where every row is wanted. */
  buckets: number;
  /** Charts of which every row is wanted all the same: they are shown as a table. */
  whole: readonly string[];
  /** Instants of the reduced readings [ms], the same for every chart of them. */
  readingTimes: number[];
  /** What was left out of the readings in as many stretches as a chart of them has columns, and what people judged. */
  tallies: Tally[];
  judged: ChartLane['judged'];
  /** Standard uncertainty of a daily fouling resistance, as a rule [m²·K/W]; null without figures. */
  usualUncertainty: number | null;
};

/** What all charts share: the figures themselves differ, the events and the axis do not. */
export type SharedView = Pick<
  ChartView,
  'axis' | 'marks' | 'spans' | 'missing' | 'isNamingEvents' | 'cleanBy' | 'levels'
>;

/** Pixel columns a chart's past is reduced to: about as many as the widest screen gives it (own choice). */
export const PIXEL_COLUMNS = 480;

/** A line is broken where readings are missing for longer than this many usual intervals [-] (own choice). */
export const GAP_INTERVALS = 2.5;

/** How finely charts are drawn, and which of them as a table with every row. */
export type Fineness = { buckets: number; whole: readonly string[] };

/** Readings come at least this often where nothing is known yet [ms]. */
const DEFAULT_INTERVAL = 3_600_000;

export function chartContext(
  records: UnitRecords,
  period: Period,
  system: UnitSystem,
  { buckets, whole }: Fineness,
): ChartContext {
  const { trend, daily, record, now } = records;
  const { timeZone, id } = record.site;
  const governing = trend === null || trend.governing === null ? null : trend.limits[trend.governing]!;
  const axis = timeAxis({
    from: period.from,
    to: period.to,
    now,
    lastDayToShow: governing?.crossedDay == null ? (governing?.p90Day ?? governing?.p50Day ?? null) : null,
    timeZone,
  });
  const usual = typicalInterval(records.readings.time);
  const interval = usual > 0 ? usual : DEFAULT_INTERVAL;
  const spread = daily.foulingResistanceUncertainty.filter((value) => value > 0);
  return {
    records,
    system,
    daily,
    trend,
    axis,
    interval,
    buckets,
    whole,
    readingTimes: reducedTimes(records.readings.time, axis, { buckets, gap: interval * GAP_INTERVALS }),
    marks: [
      ...cleaningMarks(records.cleanings, axis),
      ...plannedMarks(records.planned, axis),
      ...probableMarks(trend?.probableCleanings ?? [], axis),
      ...basisMarks(records.bases, axis),
    ].sort((a, b) => a.at - b.at),
    spans: outageSpans(records.outages, id, axis),
    tallies: tallyReadings(records.evaluation, axis, buckets),
    judged: judgedSpans(records.verdicts, axis),
    usualUncertainty: spread.length > 0 ? median(spread) : null,
  };
}

/** How the days of a chart are thinned out: not at all where it is shown as a table. */
export function dailyDrawing(
  { buckets, whole }: ChartContext,
  name: string,
  drawn: readonly ArrayLike<number>[],
) {
  return { drawn, buckets: whole.includes(name) ? Number.POSITIVE_INFINITY : buckets };
}

export function sharedView({ axis, marks, spans }: ChartContext): SharedView {
  return { axis, marks, spans, missing: [], isNamingEvents: false, cleanBy: null, levels: [] };
}
