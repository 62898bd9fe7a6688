import type { LimitResult, UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import type { ChartColumn, ChartLevel, ChartView } from '@/lib/report/format/chart-view';
import { displayUnit, toDisplay } from '@/lib/report/format/display-unit';
import { decimalsOf, formatNumber } from '@/lib/report/format/figure';
import { niceScale } from '@/lib/report/format/nice-scale';
import { formatDay } from '@/lib/report/format/time';
import { LIMIT_WORDS } from '@/lib/report/format/words';
import { localDay } from '@/lib/time/local-clock';
import { type ChartContext, dailyDrawing, sharedView } from './chart-context';
import { plainNumbers, plotted, rangeOf } from './chart-parts';
import { cleanByBar } from './clean-by-bar';
import { dailyLane } from './daily-lane';
import { cycleCuts, type DailyRows, dailyRows } from './daily-rows';
import { withJudgements } from './judged-spans';
import { missingSpans } from './missing-spans';
import { joinRows, projectedRows, type Rows, type Shown } from './projected-rows';

/** Room above the limit line, as a share of the limit, so that the clean-by bar fits (own choice). */
const ROOM_ABOVE_LIMIT = 0.08;

/** The tallest chart has room for more steps on its value axis than the others [-] (own choice). */
const STEPS = 6;

/** Daily fouling resistance cycle by cycle, the limit, and where the running cycle is heading. */
export function foulingChart(context: ChartContext): ChartView {
  const shown = displayUnit('foulingResistance', context.system);
  const decimals = Math.max(0, decimalsOf((context.usualUncertainty ?? Number.NaN) / shown.factor));
  const { foulingResistance, foulingResistanceUncertainty } = context.daily;
  const edge = (sign: number) =>
    foulingResistance.map((value, i) => value + sign * foulingResistanceUncertainty[i]!);
  const drawing = dailyDrawing(context, 'fouling', [foulingResistance, edge(-1), edge(1)]);
  const rows = dailyRows(context.daily, context.axis, cycleCuts(context.trend), drawing);
  const past = pastRows(context.daily, rows, { shown, decimals });
  const projection = projectedRows(context, context.trend?.band ?? null, { shown, decimals });
  const columns = joinRows(past, projection);
  const levels = limitLevels(context.trend, { shown, decimals });
  const [least, greatest] = rangeOf(
    ...columns.filter(({ role }) => role !== 'table').map(({ values }) => values),
  );
  const highest = Math.max(greatest, ...levels.map(({ value }) => value * (1 + ROOM_ABOVE_LIMIT)));
  const time = [...past.time, ...projection.time];
  const lane = dailyLane(context.daily, context.axis, { rows, buckets: context.buckets });
  const remarks = [...lane.remarks, ...projection.time.map(() => null)];
  return {
    ...sharedView(context),
    name: 'fouling',
    title: 'Fouling resistance',
    unit: shown.label,
    summary: summaryOf(context, past.columns[0]!, levels),
    scale: niceScale(Math.min(least, 0), highest, STEPS),
    time,
    columns,
    levels,
    missing: missingSpans(context.daily, context.axis, localDay(context.records.now, context.axis.timeZone)),
    lane: { ...lane, judged: context.judged, remarks: withJudgements(remarks, time, context.judged) },
    isNamingEvents: true,
    cleanBy: cleanByBar(foulingLimit(context.trend), context.axis, levels[0]?.value),
    isDaily: true,
    isReduced: rows.isReduced,
    note: changesInWords(context),
  };
}

function pastRows(daily: DailyColumns, rows: DailyRows, { shown, decimals }: Shown): Rows {
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

function limitLevels(trend: UnitTrend | null, { shown, decimals }: Shown): ChartLevel[] {
  const first = foulingLimit(trend);
  if (first === null || first.foulingResistance === null) return [];
  const { kind } = first.limit;
  const value = Number(toDisplay(first.foulingResistance, shown).toPrecision(5));
  const name = kind === 'fouling-resistance' ? 'limit' : `limit by ${LIMIT_WORDS[kind]}`;
  return [{ value, label: `${name} ${formatNumber(value, decimals)}`, role: 'limit' }];
}

/** The limit that fouling reaches first, also where a pressure drop governs; null where fouling leads to none. */
function foulingLimit(trend: UnitTrend | null): LimitResult | null {
  const governing = governingLimit(trend);
  if (governing === null || governing.foulingResistance !== null) return governing;
  const byFouling = (trend?.limits ?? []).filter(({ foulingResistance }) => foulingResistance !== null);
  return byFouling.sort((a, b) => a.foulingResistance! - b.foulingResistance!)[0] ?? null;
}

/** The limit the unit reaches first; null before an analysis. */
export function governingLimit(trend: UnitTrend | null) {
  return trend === null || trend.governing === null ? null : (trend.limits[trend.governing] ?? null);
}

function summaryOf({ trend, axis }: ChartContext, line: ChartColumn, levels: ChartLevel[]): string {
  const known = line.values.filter((value) => value !== null);
  if (known.length === 0) return 'No day of this period has an accepted reading.';
  const [least, greatest] = rangeOf(known);
  const number = (value: number) => formatNumber(value, line.decimals);
  const days = `${known.length === 1 ? 'one day' : `${known.length} days`} with figures`;
  const judged = levels[0] === undefined ? '' : `, ${levels[0].label} ${line.unit}`;
  const p50 = foulingLimit(trend)?.p50Day ?? null;
  const heading =
    p50 === null || axis.today === null ? '' : `, projected to be reached around ${formatDay(p50)}`;
  return `Fouling resistance, ${days} from ${number(least)} to ${number(greatest)} ${line.unit}, last ${number(known.at(-1)!)}${judged}${heading}.`;
}

/** A change of the unit, a probable or a planned cleaning is one line in the plot: here it has its words. */
function changesInWords({ marks }: ChartContext): string | null {
  const said = (['△', '▽', '◇'] as const).flatMap((sign) => {
    const own = marks.filter(({ symbol }) => symbol === sign);
    return own.length === 0 ? [] : [`${sign} ${own.map(({ label }) => label).join('; ')}.`];
  });
  return said.join(' ') || null;
}
