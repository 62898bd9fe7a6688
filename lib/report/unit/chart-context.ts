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

/** Readings come at least this often where nothing is known yet [ms]. */
const DEFAULT_INTERVAL = 3_600_000;

export function chartContext(records: UnitRecords, period: Period, system: UnitSystem): ChartContext {
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
  const interval = typicalInterval(records.readings.time);
  const spread = daily.foulingResistanceUncertainty.filter((value) => value > 0);
  return {
    records,
    system,
    daily,
    trend,
    axis,
    interval: interval > 0 ? interval : DEFAULT_INTERVAL,
    marks: [
      ...cleaningMarks(records.cleanings, axis),
      ...plannedMarks(records.planned, axis),
      ...probableMarks(trend?.probableCleanings ?? [], axis),
      ...basisMarks(records.bases, axis),
    ].sort((a, b) => a.at - b.at),
    spans: outageSpans(records.outages, id, axis),
    tallies: tallyReadings(records.evaluation, axis, PIXEL_COLUMNS),
    judged: judgedSpans(records.verdicts, axis),
    usualUncertainty: spread.length > 0 ? median(spread) : null,
  };
}

export function sharedView({ axis, marks, spans }: ChartContext): SharedView {
  return { axis, marks, spans, missing: [], isNamingEvents: false, cleanBy: null, levels: [] };
}
