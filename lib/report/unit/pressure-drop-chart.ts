import type { Side } from '@/lib/core/exchange/exchanger';
import { standardUncertainty } from '@/lib/core/fouling/unit-model';
import type { LimitResult, UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { median } from '@/lib/core/stats/quantile';
import type { ChartLevel, ChartView } from '@/lib/report/format/chart-view';
import { displayUnit, toDisplay } from '@/lib/report/format/display-unit';
import { decimalsOf, formatFigureText, formatNumber } from '@/lib/report/format/figure';
import { niceScale } from '@/lib/report/format/nice-scale';
import { formatDay } from '@/lib/report/format/time';
import { localDay } from '@/lib/time/local-clock';
import { type ChartContext, dailyDrawing, sharedView } from './chart-context';
import { lastValue, plotted, rangeOf } from './chart-parts';
import { cleanByBar } from './clean-by-bar';
import { cycleCuts, dailyRows } from './daily-rows';
import { missingSpans } from './missing-spans';
import { joinRows, projectedRows, type Rows, type Shown } from './projected-rows';

/** Room above the limit line, as a share of it, so that the clean-by bar fits (own choice). */
const ROOM_ABOVE_LIMIT = 0.08;

/** Daily pressure drop of one side at the design flow, its limit and where it is heading; null where it was never measured. */
export function pressureDropChart(context: ChartContext, side: Side): ChartView | null {
  const { daily, trend, axis, system, records } = context;
  const column = daily[`${side}PressureDrop`];
  if (!column.some((value) => value > 0)) return null;
  const shown = displayUnit('pressure', system);
  const spread = standardUncertainty(
    records.record.exchanger.sensors[`${side}PressureDrop`],
    median(column.filter((value) => value > 0)),
  );
  const format = { shown, decimals: Math.max(0, decimalsOf(spread / shown.factor)) };
  const limit = pressureDropLimit(trend, side);
  const past = pastRows(context, side, format);
  const projection = projectedRows(context, limit?.pressureDrop?.band ?? null, format);
  const columns = joinRows(past, projection);
  const levels = limitLevels(limit, format);
  const [least, greatest] = rangeOf(...columns.map(({ values }) => values));
  const highest = Math.max(greatest, ...levels.map(({ value }) => value * (1 + ROOM_ABOVE_LIMIT)));
  return {
    ...sharedView(context),
    name: `${side}-pressure-drop`,
    title: `${side === 'hot' ? 'Hot' : 'Cold'}-side pressure drop at the design flow`,
    unit: shown.label,
    summary: summaryOf(past, levels, { side, limit, isNow: axis.today !== null }),
    scale: niceScale(least, highest),
    time: [...past.time, ...projection.time],
    columns,
    levels,
    missing: missingSpans(daily, axis, localDay(records.now, axis.timeZone), column),
    cleanBy: cleanByBar(limit, axis, levels[0]?.value),
    isDaily: true,
    isReduced: past.isReduced,
    note: noteOf(context, side),
  };
}

/** The lowest limit of a side's pressure drop; null without any. */
function pressureDropLimit(trend: UnitTrend | null, side: Side): LimitResult | null {
  const own = (trend?.limits ?? []).filter(
    ({ limit }) => limit.kind === 'pressure-drop' && limit.stream === side,
  );
  return own.sort((a, b) => levelOf(a) - levelOf(b))[0] ?? null;
}

function levelOf({ limit }: LimitResult): number {
  return limit.kind === 'pressure-drop' ? limit.above : Number.POSITIVE_INFINITY;
}

function pastRows(
  context: ChartContext,
  side: Side,
  { shown, decimals }: Shown,
): Rows & { isReduced: boolean } {
  const { daily, trend, axis } = context;
  const drawing = dailyDrawing(context, `${side}-pressure-drop`, [daily[`${side}PressureDrop`]]);
  const rows = dailyRows(daily, axis, cycleCuts(trend), drawing);
  const values = plotted(rows.pick(daily[`${side}PressureDrop`]), shown);
  return {
    time: rows.time,
    isReduced: rows.isReduced,
    columns: [
      {
        role: 'line',
        label: `${side} pressure drop`,
        unit: shown.label,
        decimals,
        values,
        style: 'main',
      },
    ],
  };
}

function limitLevels(limit: LimitResult | null, { shown, decimals }: Shown): ChartLevel[] {
  if (limit === null) return [];
  const value = Number(toDisplay(levelOf(limit), shown).toPrecision(5));
  return [{ value, label: `limit ${formatNumber(value, decimals)}`, role: 'limit' }];
}

function noteOf({ records, system }: ChartContext, side: Side): string {
  const { exchanger } = records.record;
  const flow = formatFigureText(exchanger.design[`${side}Flow`], 'massFlow', system);
  return `Scaled to ${flow} by the flow to the power ${exchanger.pressureDropExponents[side]}.`;
}

type Heading = { side: Side; limit: LimitResult | null; isNow: boolean };

function summaryOf({ columns }: Rows, levels: ChartLevel[], { side, limit, isNow }: Heading): string {
  const line = columns[0]!;
  const last = lastValue(line.values);
  if (last === null) return 'No day of this period has a measured pressure drop.';
  const [least, greatest] = rangeOf(line.values);
  const number = (value: number) => formatNumber(value, line.decimals);
  const judged = levels[0] === undefined ? '' : `, ${levels[0].label} ${line.unit}`;
  const p50 = limit?.p50Day ?? null;
  const heading = p50 === null || !isNow ? '' : `, projected to be reached around ${formatDay(p50)}`;
  return `Daily ${side}-side pressure drop at the design flow, from ${number(least)} to ${number(greatest)} ${line.unit}, last ${number(last)}${judged}${heading}.`;
}
