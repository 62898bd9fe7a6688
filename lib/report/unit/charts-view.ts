import type { ChartView } from '@/lib/report/format/chart-view';
import type { TimeAxis } from '@/lib/report/format/time-axis';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { UnitRecords } from '@/lib/report/records';
import { localDay } from '@/lib/time/local-clock';
import { type ChartContext, chartContext, PIXEL_COLUMNS } from './chart-context';
import { completeTrend } from './complete-trend';
import { conductanceChart } from './conductance-chart';
import { foulingChart } from './fouling-chart';
import { type PeriodControl, periodControl } from './period-control';
import { pressureDropChart } from './pressure-drop-chart';
import { balanceChart, dutyChart, flowChart, temperatureChart } from './reading-charts';
import { FIGURES, type FigureName, type UnitAddress, unitHref } from './unit-address';
import { type Period, periodOf } from './unit-period';

/** A chart of the unit page with the addresses of its tools. */
export type PageChart = { view: ChartView; isTable: boolean; toggleHref: string; fileName: string };

/** What of the unit page changes at once when a reader looks closer: the period, and every chart over it. */
export type ChartsView = {
  period: PeriodControl;
  axis: TimeAxis;
  charts: PageChart[];
  /** Address of a reading picked in a chart, `{time}` standing for its instant. */
  pickHref: string;
};

/** Columns of pixels to draw for; infinite: every row. Only one figure, where it is named. */
export type Drawing = { columns?: number; figure?: FigureName | null };

/** The charts of one unit for one address: the page and the route that looks closer both answer with this. */
export function chartsView(
  stored: UnitRecords,
  address: UnitAddress,
  system: UnitSystem,
  { columns = PIXEL_COLUMNS, figure = null }: Drawing = {},
): ChartsView {
  const records = { ...stored, trend: completeTrend(stored.trend) };
  const { shown, context } = contextOf(records, address, system, columns);
  return chartsIn(context, { address, period: shown, figure });
}

/** The period an address asks for, and what every chart over it is built from. */
export function contextOf(
  records: UnitRecords,
  address: UnitAddress,
  system: UnitSystem,
  columns = PIXEL_COLUMNS,
): { shown: Period; context: ChartContext } {
  const { daily, trend, now, record } = records;
  const { timeZone } = record.site;
  const shown = periodOf(address, { daily, cycles: trend?.cycles ?? [], timeZone, now });
  return {
    shown,
    context: chartContext(records, shown, system, { buckets: columns, whole: address.tables }),
  };
}

type Place = { address: UnitAddress; period: Period; figure?: FigureName | null };

export function chartsIn(context: ChartContext, { address, period, figure = null }: Place): ChartsView {
  const { records, axis, daily } = context;
  const today = localDay(records.now, axis.timeZone);
  const limits = { earliest: Math.min(daily.day[0] ?? today, today), latest: today };
  const charts = FIGURES.filter((name) => figure === null || name === figure)
    .map((name) => DRAWN[name](context))
    .filter((chart) => chart !== null);
  return {
    period: periodControl(address, period, limits),
    axis,
    charts: charts.map((chart) => charted(chart, address)),
    pickHref: unitHref({ ...address, reading: null }, { isWorkedOut: true })
      .replace(/\?/, '?reading={time}&')
      .concat('#how'),
  };
}

/** How each figure of the page is drawn; null where a unit has none. */
const DRAWN: Record<FigureName, (context: ChartContext) => ChartView | null> = {
  fouling: foulingChart,
  'hot-pressure-drop': (context) => pressureDropChart(context, 'hot'),
  'cold-pressure-drop': (context) => pressureDropChart(context, 'cold'),
  conductance: conductanceChart,
  duty: dutyChart,
  balance: balanceChart,
  temperatures: temperatureChart,
  flows: flowChart,
};

function charted(view: ChartView, address: UnitAddress): PageChart {
  const shown = address.tables.find((name) => name === view.name);
  const name = view.name as FigureName;
  const tables =
    shown === undefined ? [...address.tables, name] : address.tables.filter((other) => other !== shown);
  return {
    view,
    isTable: shown !== undefined,
    toggleHref: unitHref(address, { tables }),
    fileName: `${address.tag.replace(/[^\p{L}\p{N}.-]+/gu, '-')}-${view.name}.csv`,
  };
}
