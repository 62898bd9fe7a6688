import type { ValueScale } from './nice-scale';
import type { TimeAxis } from './time-axis';

/** How a line is drawn: tones are greys, a second carrier (dash, width) tells lines apart without colour. */
export type LineStyle = 'main' | 'main-dashed' | 'second' | 'second-dashed';

/**
 * What a column of a chart is for. `line` is drawn and labelled at its end; `low`/`high` are the band of uncertainty
 * around it; `p10`, `p50`, `p90` the projection; `table` stands only in the table.
 */
export type ColumnRole = 'line' | 'low' | 'high' | 'p10' | 'p50' | 'p90' | 'table';

/** One column of a chart in the shown unit, null where there is no value (the line breaks there). */
export type ChartColumn = {
  role: ColumnRole;
  label: string;
  unit: string;
  decimals: number;
  values: (number | null)[];
  style?: LineStyle;
  /** False: drawn, but not repeated in the table. */
  inTable?: boolean;
};

/** A level the figures are judged by, drawn across the plot and named. */
export type ChartLevel = { value: number; label: string; role: 'limit' | 'tolerance' | 'clean' };

/** Something that happened at an instant: a cleaning, a probable one, a change of the unit. */
export type ChartMark = { at: number; label: string; symbol: '▲' | '△' | '▽' | '◇' };

/** A stretch of time with a name: an outage. */
export type ChartSpan = { from: number; to: number; label: string };

/** What was left out, drawn on a lane of its own at the foot of the plot. */
export type ChartLane = {
  /** Share of the readings between two instants [ms] that was left out [-]. */
  bars: { from: number; to: number; share: number }[];
  /** Stretches in which one reason left most readings out, with its name. */
  names: ChartSpan[];
  /** Periods that a person judged; `short` for where the whole label finds no room. */
  judged: (ChartSpan & { short: string })[];
  /** For each row of the chart: what was left out there and why; null where nothing was. */
  remarks: (string | null)[];
};

/** When the limit is projected to be reached [ms], with the words for it. */
export type ChartCleanBy = { p10: number; p50: number; p90: number | null; label: string; level: number };

/** Everything a chart and its table show, as plain data. Times [ms], values in the shown unit. */
export type ChartView = {
  name: string;
  title: string;
  /** Unit of measure of the value axis. */
  unit: string;
  /** The chart in one sentence, for those who cannot see it. */
  summary: string;
  axis: TimeAxis;
  scale: ValueScale;
  time: number[];
  columns: ChartColumn[];
  levels: ChartLevel[];
  marks: ChartMark[];
  spans: ChartSpan[];
  /** Stretches without figures, with cause and since when. */
  missing: ChartSpan[];
  /** Absent where no readings were judged. */
  lane?: ChartLane;
  /** True on the one chart of the page that names its cleanings and outages; the others only show them. */
  isNamingEvents: boolean;
  cleanBy: ChartCleanBy | null;
  /** True where a chart of this width need not have every row: then the file of it is asked for by itself. */
  isReduced?: boolean;
  /** Whether rows are whole local days (the table then shows no time of day). */
  isDaily: boolean;
  /** Something a reader must know of the drawing; null as a rule. */
  note: string | null;
};
