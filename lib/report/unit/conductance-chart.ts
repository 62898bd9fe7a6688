import type { ChartView } from '@/lib/report/format/chart-view';
import { displayUnit } from '@/lib/report/format/display-unit';
import { formatNumber } from '@/lib/report/format/figure';
import { niceScale } from '@/lib/report/format/nice-scale';
import { type ChartContext, dailyDrawing, sharedView } from './chart-context';
import { lastValue, plotted, rangeOf } from './chart-parts';
import { cycleCuts, dailyRows } from './daily-rows';

/** Daily U beside the U a clean unit would have at the same flows: the distance between them is the fouling. */
export function conductanceChart(context: ChartContext): ChartView {
  const { daily, trend, axis, system } = context;
  const shown = displayUnit('conductance', system);
  const rows = dailyRows(
    daily,
    axis,
    cycleCuts(trend),
    dailyDrawing(context, 'conductance', [daily.overallU, daily.cleanU]),
  );
  const actual = plotted(rows.pick(daily.overallU), shown);
  const clean = plotted(rows.pick(daily.cleanU), shown);
  const scale = niceScale(...rangeOf(actual, clean));
  const common = { unit: shown.label, decimals: scale.decimals, role: 'line' } as const;
  return {
    ...sharedView(context),
    name: 'conductance',
    title: 'Overall conductance U',
    unit: shown.label,
    summary: summaryOf(lastValue(actual), lastValue(clean), shown.label),
    scale,
    time: rows.time,
    columns: [
      { ...common, label: 'U', values: actual, style: 'main' },
      { ...common, label: 'clean U', values: clean, style: 'second-dashed' },
    ],
    isDaily: true,
    isReduced: rows.isReduced,
    note: null,
  };
}

function summaryOf(actual: number | null, clean: number | null, unit: string): string {
  if (actual === null || clean === null) return 'No day of this period has an accepted reading.';
  return `Daily overall conductance, last ${formatNumber(actual, 0)} ${unit}, where a clean unit would have ${formatNumber(clean, 0)} ${unit} at the same flows.`;
}
