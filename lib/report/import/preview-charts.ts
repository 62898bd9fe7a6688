import type { ImportPreview, PreviewPlot } from '@/lib/contract/import-preview';
import type { Sensor } from '@/lib/core/exchange/exchanger';
import type { ChartColumn, ChartView, LineStyle } from '@/lib/report/format/chart-view';
import { type DisplayUnit, toDisplay } from '@/lib/report/format/display-unit';
import { formatNumber } from '@/lib/report/format/figure';
import { niceScale } from '@/lib/report/format/nice-scale';
import { timeAxis } from '@/lib/report/format/time-axis';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { lastValue, rangeOf } from '@/lib/report/unit/chart-parts';
import { unitOf } from './preview-units';

type Line = { sensor: Sensor; label: string; style: LineStyle };

const TEMPERATURES: Line[] = [
  { sensor: 'hotIn', label: 'hot in', style: 'main' },
  { sensor: 'hotOut', label: 'hot out', style: 'main-dashed' },
  { sensor: 'coldIn', label: 'cold in', style: 'second' },
  { sensor: 'coldOut', label: 'cold out', style: 'second-dashed' },
];
const FLOWS: Line[] = [
  { sensor: 'hotFlow', label: 'hot flow', style: 'main' },
  { sensor: 'coldFlow', label: 'cold flow', style: 'second-dashed' },
];
/** Least span of an axis [ms]: a file may hold a single row. */
const LEAST_SPAN_MS = 3_600_000;

/** Temperatures and flows of the file's first unit, so that a person sees whether columns were taken for each other. */
export function previewCharts(preview: ImportPreview, system: UnitSystem): ChartView[] {
  const { plot, units } = preview;
  if (plot === null) return [];
  const timeZone = units.find(({ tag }) => tag === plot.tag)?.timeZone ?? 'UTC';
  const charts: [name: string, title: string, lines: Line[]][] = [
    ['preview-temperatures', `${plot.tag}: temperatures`, TEMPERATURES],
    ['preview-flows', `${plot.tag}: flows`, FLOWS],
  ];
  return charts.flatMap(([name, title, lines]) => chartOf(plot, lines, { name, title, timeZone, system }));
}

type Naming = { name: string; title: string; timeZone: string; system: UnitSystem };

function chartOf(plot: PreviewPlot, wanted: Line[], { name, title, timeZone, system }: Naming): ChartView[] {
  const lines = wanted.filter(({ sensor }) => plot.values[sensor]?.some((value) => value !== null));
  if (lines.length === 0) return [];
  const shown = unitOf(lines[0]!.sensor, plot.flowBasis, system);
  // Meters of two kinds share no axis: the second is left out rather than drawn to another scale.
  const alike = lines.filter(({ sensor }) => unitOf(sensor, plot.flowBasis, system).ucum === shown.ucum);
  const values = alike.map(({ sensor }) => plot.values[sensor]!.map((value) => inUnit(value, shown)));
  const scale = niceScale(...rangeOf(...values));
  const from = plot.time[0]!;
  const to = Math.max(plot.time.at(-1)!, from + LEAST_SPAN_MS);
  const columns = alike.map(
    ({ label, style }, i): ChartColumn => ({
      role: 'line',
      label,
      style,
      unit: shown.label,
      decimals: scale.decimals + 1,
      values: values[i]!,
    }),
  );
  return [
    {
      name,
      title,
      unit: shown.label,
      summary: `${title}: ${columns.map(summaryOf).join('; ')}.`,
      axis: timeAxis({ from, to, now: Number.POSITIVE_INFINITY, lastDayToShow: null, timeZone }),
      scale,
      time: plot.time,
      columns,
      levels: [],
      marks: [],
      spans: [],
      missing: [],
      isNamingEvents: false,
      cleanBy: null,
      note: null,
      isDaily: false,
    },
  ];
}

function summaryOf({ label, values, unit, decimals }: ChartColumn): string {
  const [least, greatest] = rangeOf(values);
  const number = (value: number) => formatNumber(value, Math.max(0, decimals - 1));
  return `${label} from ${number(least)} to ${number(greatest)}, last ${number(lastValue(values) ?? least)} ${unit}`;
}

function inUnit(value: number | null, shown: DisplayUnit): number | null {
  return value === null ? null : Number(toDisplay(value, shown).toPrecision(5));
}
