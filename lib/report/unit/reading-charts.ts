import { type Side, TEMPERATURE_SENSORS } from '@/lib/core/exchange/exchanger';
import { sensorBit } from '@/lib/core/fouling/sensor-plan';
import { firstNotBefore } from '@/lib/core/series/first-not-before';
import { COLD_FLOW_IS_VOLUME, HOT_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';
import { type ReductionWindow, reduceColumns } from '@/lib/core/series/reduce-columns';
import type {
  ChartColumn,
  ChartLane,
  ChartLevel,
  ChartView,
  LineStyle,
} from '@/lib/report/format/chart-view';
import { type DisplayKind, type DisplayUnit, displayUnit } from '@/lib/report/format/display-unit';
import { formatNumber } from '@/lib/report/format/figure';
import { niceScale } from '@/lib/report/format/nice-scale';
import type { TimeAxis } from '@/lib/report/format/time-axis';
import { SENSOR_WORDS } from '@/lib/report/format/words';
import { type ChartContext, GAP_INTERVALS, sharedView } from './chart-context';
import { lastValue, plotted, rangeOf, usualRange } from './chart-parts';
import { withJudgements } from './judged-spans';
import { laneOf, remarksAt } from './left-out-lane';
import { reducedTimes, windowOf } from './reduced-times';

/** A scale that ends below this is read to one decimal more than its ticks show (own choice). */
const FINE_BELOW = 100;

/** Room beyond a level line, so that its name fits inside the plot [-] (own choice). */
const LEVEL_ROOM = 1.4;

/** Duty given off and taken up: they lie on each other when the balance closes. */
export function dutyChart(context: ChartContext): ChartView {
  const { hotDuty, coldDuty } = context.records.evaluation;
  const shown = displayUnit('power', context.system, greatestOf(hotDuty, coldDuty));
  return readingChart(context, {
    name: 'duty',
    title: 'Duty of each side',
    shown,
    lines: [
      { label: 'hot side', values: hotDuty, style: 'main' },
      { label: 'cold side', values: coldDuty, style: 'second-dashed' },
    ],
  });
}

/** Balance error with the tolerance beyond which a reading is left out. */
export function balanceChart(context: ChartContext): ChartView {
  const { evaluation, record } = context.records;
  const shown = displayUnit('fraction', context.system);
  const tolerance = record.settings.balanceTolerance / shown.factor;
  const levels: ChartLevel[] = [tolerance, -tolerance].map((value) => ({
    value,
    label: `tolerance ${value > 0 ? '+' : '−'}${formatNumber(Math.abs(value), 0)} %`,
    role: 'tolerance',
  }));
  return readingChart(context, {
    name: 'balance',
    title: 'Balance error (hot − cold) / mean',
    shown,
    lines: [{ label: 'balance error', values: evaluation.balance, style: 'main' }],
    levels,
    emptyText: 'a value is not measured but follows from the balance, which therefore cannot be checked.',
  });
}

const TEMPERATURE_LINES: Record<(typeof TEMPERATURE_SENSORS)[number], { label: string; style: LineStyle }> = {
  hotIn: { label: 'hot in', style: 'main' },
  hotOut: { label: 'hot out', style: 'main-dashed' },
  coldIn: { label: 'cold in', style: 'second' },
  coldOut: { label: 'cold out', style: 'second-dashed' },
};

/** The four temperatures as read, left-out readings included. */
export function temperatureChart(context: ChartContext): ChartView {
  return readingChart(context, {
    name: 'temperatures',
    title: 'Temperatures as read',
    shown: displayUnit('temperature', context.system),
    lines: TEMPERATURE_SENSORS.map((sensor) => ({
      ...TEMPERATURE_LINES[sensor],
      values: context.records.readings[sensor],
    })),
    note: unreadNote(context),
  });
}

/** Both flows, as volume where both meters read volume, else as mass. */
export function flowChart(context: ChartContext): ChartView {
  const { readings, evaluation } = context.records;
  const newest = readings.flowBasis.at(-1) ?? 0;
  const [hasHot, hasCold] = [isRead(readings.hotFlow), isRead(readings.coldFlow)];
  const isHotVolume = hasHot && (newest & HOT_FLOW_IS_VOLUME) !== 0;
  const isColdVolume = hasCold && (newest & COLD_FLOW_IS_VOLUME) !== 0;
  const isVolume = isHotVolume && isColdVolume;
  // Meters of two kinds, or one that reads volume beside a flow worked out as mass, share no axis as read.
  const isAsRead = (hasHot || hasCold) && isHotVolume === isColdVolume;
  const hot = isAsRead && hasHot ? readings.hotFlow : evaluation.hotMassFlow;
  const cold = isAsRead && hasCold ? readings.coldFlow : evaluation.coldMassFlow;
  const kind: DisplayKind = isVolume ? 'volumeFlow' : 'massFlow';
  return readingChart(context, {
    name: 'flows',
    title: isAsRead ? 'Flows as read' : 'Mass flows as evaluated',
    shown: displayUnit(kind, context.system, greatestOf(hot, cold)),
    lines: [
      { label: flowLabel(context, 'hot'), values: hot, style: 'main' },
      { label: flowLabel(context, 'cold'), values: cold, style: 'second-dashed' },
    ],
  });
}

/** "cold flow", "cold flow (inferred)", "cold flow (typed in)": a figure that no meter gave says so. */
function flowLabel({ records }: ChartContext, side: Side): string {
  const { readings, evaluation } = records;
  const sensor = `${side}Flow` as const;
  if (isRead(readings[sensor])) return `${side} flow`;
  const isTypedIn = evaluation.nominal.some((bits) => (bits & sensorBit(sensor)) !== 0);
  return `${side} flow (${isTypedIn ? 'typed in' : 'inferred'})`;
}

/** Names the temperatures that no sensor of the period gave. */
function unreadNote({ records }: ChartContext): string | null {
  const unread = TEMPERATURE_SENSORS.filter((sensor) => !isRead(records.readings[sensor]));
  if (unread.length === 0 || unread.length === TEMPERATURE_SENSORS.length) return null;
  const names = unread.map((sensor) => SENSOR_WORDS[sensor]).join(' and ');
  return `Not measured, so not drawn: ${names}. The working of a reading shows the value taken for it.`;
}

function isRead(values: Float64Array): boolean {
  return values.some((value) => !Number.isNaN(value));
}

type ReadingChart = {
  name: string;
  title: string;
  shown: DisplayUnit;
  lines: { label: string; values: Float64Array; style: LineStyle }[];
  levels?: ChartLevel[];
  /** What to say where there is nothing to draw. */
  emptyText?: string;
  /** What a reader must know of it besides. */
  note?: string | null;
};

function readingChart(context: ChartContext, chart: ReadingChart): ChartView {
  const { axis, records } = context;
  const rows = rowsOf(context, chart.name);
  const reduced = reduceColumns(
    records.readings.time,
    chart.lines.map(({ values }) => values),
    rows.window,
  );
  const values = reduced.columns.map((column) => plotted(column, chart.shown));
  const levels = chart.levels ?? [];
  const usual = usualRange(values);
  const scale = niceScale(...widened(usual, levels));
  const columns = chart.lines.map(
    ({ label, style }, index): ChartColumn => ({
      role: 'line',
      label,
      style,
      unit: chart.shown.label,
      decimals: scale.decimals + (scale.max < FINE_BELOW ? 1 : 0),
      values: values[index]!,
    }),
  );
  return {
    ...sharedView(context),
    name: chart.name,
    title: chart.title,
    unit: chart.shown.label,
    summary: summaryOf(chart, columns),
    scale,
    time: rows.time,
    columns,
    levels,
    lane: rows.lane,
    isReduced: rows.time.length < rowsWithin(records.readings.time, axis),
    isDaily: false,
    note: [chart.note ?? null, offPlotNote(values, scale)].filter((note) => note !== null).join(' ') || null,
  };
}

type ReadingRows = { window: ReductionWindow; time: number[]; lane: ChartLane };

/** The rows that all charts of readings share; those of a chart shown as a table are every reading's own. */
function rowsOf(context: ChartContext, name: string): ReadingRows {
  const { axis, interval, records, tallies, judged } = context;
  const isWhole = context.whole.includes(name);
  const known = isWhole ? undefined : SHARED_ROWS.get(context);
  if (known !== undefined) return known;
  const fineness = {
    buckets: isWhole ? Number.POSITIVE_INFINITY : context.buckets,
    gap: interval * GAP_INTERVALS,
  };
  const time = isWhole ? reducedTimes(records.readings.time, axis, fineness) : context.readingTimes;
  const lane = {
    ...laneOf(tallies, axis),
    judged,
    remarks: withJudgements(remarksAt(tallies, time), time, judged),
  };
  const rows = { window: windowOf(axis, fineness), time, lane };
  if (!isWhole) SHARED_ROWS.set(context, rows);
  return rows;
}

/** The rows of a context, worked out once: what is the same is then sent once. */
const SHARED_ROWS = new WeakMap<ChartContext, ReadingRows>();

function rowsWithin(time: Float64Array, { from, today, end }: TimeAxis): number {
  return firstNotBefore(time, (today ?? end) + 1) - firstNotBefore(time, from);
}

function summaryOf(
  { title, emptyText = 'no values in this period.' }: ReadingChart,
  columns: ChartColumn[],
): string {
  const known = columns.filter(({ values }) => lastValue(values) !== null);
  if (known.length === 0) return `${title}: ${emptyText}`;
  const parts = known.map(({ label, values, unit, decimals }) => {
    const [least, greatest] = rangeOf(values);
    const number = (value: number) => formatNumber(value, decimals);
    return `${label} from ${number(least)} to ${number(greatest)}, last ${number(lastValue(values)!)} ${unit}`;
  });
  return `${title}: ${parts.join('; ')}.`;
}

/** The range with room beyond each level line for its name. */
function widened([least, greatest]: [number, number], levels: ChartLevel[]): [number, number] {
  const rooms = levels.map(({ value }) => value * LEVEL_ROOM);
  return [Math.min(least, ...rooms), Math.max(greatest, ...rooms)];
}

/** Says so when values run off the plot. */
function offPlotNote(values: (number | null)[][], { min, max }: ChartView['scale']): string | null {
  const count = values.flat().filter((value) => value !== null && (value < min || value > max)).length;
  return count === 0
    ? null
    : `${count === 1 ? 'One value runs' : `${count} values run`} off this plot; the table has them all.`;
}

function greatestOf(...columns: Float64Array[]): number {
  let most = 0;
  for (const column of columns) {
    for (const value of column) if (Math.abs(value) > most) most = Math.abs(value);
  }
  return most;
}
