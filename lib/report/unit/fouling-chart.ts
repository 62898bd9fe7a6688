import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { ChartCleanBy, ChartColumn, ChartLevel, ChartView } from '@/lib/report/format/chart-view';
import { type DisplayUnit, displayUnit, toDisplay } from '@/lib/report/format/display-unit';
import { decimalsOf, formatNumber } from '@/lib/report/format/figure';
import { niceScale } from '@/lib/report/format/nice-scale';
import { formatDay } from '@/lib/report/format/time';
import { LIMIT_WORDS } from '@/lib/report/format/words';
import { DAY_MS } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import { startOfLocalDay } from '@/lib/time/local-day';
import { type ChartContext, sharedView } from './chart-context';
import { plainNumbers, plotted, rangeOf } from './chart-parts';
import { cycleCuts, dailyRows } from './daily-rows';
import { missingSpans } from './missing-spans';

type Rows = { time: number[]; columns: ChartColumn[] };

/** Room above the limit line, as a share of the limit, so that the clean-by bar fits (own choice). */
const ROOM_ABOVE_LIMIT = 0.08;

/** The tallest chart has room for more steps on its value axis than the others [-] (own choice). */
const STEPS = 6;

/** Daily fouling resistance cycle by cycle, the limit, and where the running cycle is heading. */
export function foulingChart(context: ChartContext): ChartView {
  const shown = displayUnit('foulingResistance', context.system);
  const decimals = Math.max(0, decimalsOf((context.usualUncertainty ?? Number.NaN) / shown.factor));
  const past = pastRows(context, { shown, decimals });
  const projection = projectedRows(context, { shown, decimals });
  const columns = joinRows(past, projection);
  const levels = limitLevels(context.trend, { shown, decimals });
  const [least, greatest] = rangeOf(
    ...columns.filter(({ role }) => role !== 'table').map(({ values }) => values),
  );
  const highest = Math.max(greatest, ...levels.map(({ value }) => value * (1 + ROOM_ABOVE_LIMIT)));
  return {
    ...sharedView(context),
    name: 'fouling',
    title: 'Fouling resistance',
    unit: shown.label,
    summary: summaryOf(context, past.columns[0]!, levels),
    scale: niceScale(Math.min(least, 0), highest, STEPS),
    time: [...past.time, ...projection.time],
    columns,
    levels,
    missing: missingSpans(context.daily, context.axis, localDay(context.records.now, context.axis.timeZone)),
    isNamingEvents: true,
    cleanBy: cleanByOf(context, levels),
    isDaily: true,
    note: null,
  };
}

type Shown = { shown: DisplayUnit; decimals: number };

function pastRows({ daily, trend, axis }: ChartContext, { shown, decimals }: Shown): Rows {
  const rows = dailyRows(daily, axis, cycleCuts(trend?.cycles ?? []));
  const values = plotted(rows.pick(daily.foulingResistance), shown);
  const spread = rows
    .pick(daily.foulingResistanceUncertainty)
    .map((uncertainty) => uncertainty / shown.factor);
  const around = (sign: number) =>
    plainNumbers(values.map((value, i) => (value === null ? Number.NaN : value + sign * spread[i]!)));
  const common = { unit: shown.label, decimals };
  return {
    time: rows.time,
    columns: [
      { ...common, role: 'line', label: 'fouling resistance', values, style: 'main' },
      { ...common, role: 'low', label: 'less its uncertainty', values: around(-1), inTable: false },
      { ...common, role: 'high', label: 'plus its uncertainty', values: around(1), inTable: false },
      { ...common, role: 'table', label: 'standard uncertainty', values: plainNumbers(spread) },
      {
        role: 'table',
        unit: '',
        decimals: 0,
        label: 'readings accepted',
        values: plainNumbers(rows.pick(daily.accepted)),
      },
      {
        role: 'table',
        unit: '',
        decimals: 0,
        label: 'readings',
        values: plainNumbers(rows.pick(daily.readings)),
      },
    ],
  };
}

function projectedRows({ trend, axis }: ChartContext, { shown, decimals }: Shown): Rows {
  const band = trend?.band ?? null;
  const start = trend?.cycles.at(-1)?.startDay;
  const isShown = band !== null && start !== undefined && axis.today !== null;
  const origin = isShown ? startOfLocalDay(start, axis.timeZone) : 0;
  const ages = isShown ? Array.from(band.ageDays, (age) => Math.round(origin + age * DAY_MS)) : [];
  // One point past the axis, so that the band runs to its edge.
  const beyond = ages.findIndex((at) => at >= axis.end);
  const count = beyond < 0 ? ages.length : beyond + 1;
  return {
    time: ages.slice(0, count),
    columns: (['p10', 'p50', 'p90'] as const).map((role) => ({
      role,
      label: `projected ${role.toUpperCase()}`,
      unit: shown.label,
      decimals,
      values: isShown ? plotted(band[role].slice(0, count), shown) : [],
    })),
  };
}

function joinRows(past: Rows, projection: Rows): ChartColumn[] {
  const before = past.time.map(() => null);
  const after = projection.time.map(() => null);
  return [
    ...past.columns.map((column) => ({ ...column, values: [...column.values, ...after] })),
    ...projection.columns.map((column) => ({ ...column, values: [...before, ...column.values] })),
  ];
}

function limitLevels(trend: UnitTrend | null, { shown, decimals }: Shown): ChartLevel[] {
  const governing = governingLimit(trend);
  if (governing === null || governing.foulingResistance === null) return [];
  const { kind } = governing.limit;
  const value = Number(toDisplay(governing.foulingResistance, shown).toPrecision(5));
  const name = kind === 'fouling-resistance' ? 'limit' : `limit by ${LIMIT_WORDS[kind]}`;
  return [{ value, label: `${name} ${formatNumber(value, decimals)}`, role: 'limit' }];
}

/** The limit the unit reaches first; null before an analysis. */
export function governingLimit(trend: UnitTrend | null) {
  return trend === null || trend.governing === null ? null : (trend.limits[trend.governing] ?? null);
}

function cleanByOf({ trend, axis }: ChartContext, levels: ChartLevel[]): ChartCleanBy | null {
  const governing = governingLimit(trend);
  const level = levels[0];
  if (governing === null || level === undefined || axis.today === null || governing.crossedDay !== null)
    return null;
  const { p10Day, p50Day, p90Day } = governing;
  if (p10Day === null || p50Day === null) return null;
  const at = (day: number) => startOfLocalDay(day, axis.timeZone);
  return {
    p10: at(p10Day),
    p50: at(p50Day),
    p90: p90Day === null ? null : at(p90Day),
    level: level.value,
    label: `projected ${formatDay(p50Day)}`,
  };
}

function summaryOf({ trend, axis }: ChartContext, line: ChartColumn, levels: ChartLevel[]): string {
  const known = line.values.filter((value) => value !== null);
  if (known.length === 0) return 'No day of this period has an accepted reading.';
  const [least, greatest] = rangeOf(known);
  const number = (value: number) => formatNumber(value, line.decimals);
  const days = `${known.length === 1 ? 'one day' : `${known.length} days`} with figures`;
  const judged = levels[0] === undefined ? '' : `, ${levels[0].label} ${line.unit}`;
  const p50 = governingLimit(trend)?.p50Day ?? null;
  const heading =
    p50 === null || axis.today === null ? '' : `, projected to be reached around ${formatDay(p50)}`;
  return `Fouling resistance, ${days} from ${number(least)} to ${number(greatest)} ${line.unit}, last ${number(known.at(-1)!)}${judged}${heading}.`;
}
