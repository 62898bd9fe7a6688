import type { ChartView } from '@/lib/report/format/chart-view';
import styles from './chart.module.css';
import type { PlotScale } from './plot-scale';

/** Rough width of a character of the axis type, and least room between two names [px]. */
const CHARACTER = 5.8;
const GAP = 14;

/** Names of the values at the left and of the times below; a time whose name would touch the next is left unnamed. */
export function Axes({ view, plot }: { view: ChartView; plot: PlotScale }) {
  const { scale } = view;
  return (
    <g className={styles.axes}>
      <line x1={plot.left} x2={plot.right} y1={plot.foot} y2={plot.foot} />
      {scale.ticks.map((value) => (
        <text key={value} x={plot.left - 8} y={plot.y(value)} dy="0.355em" textAnchor="end">
          {value.toFixed(scale.decimals).replace('-', '−')}
        </text>
      ))}
      {namedTimes(view, plot).map(({ at, x, label }) => (
        <text key={at} x={x} y={plot.foot + 8} dy="0.71em" textAnchor="middle">
          {label}
        </text>
      ))}
    </g>
  );
}

function namedTimes({ axis }: ChartView, plot: PlotScale) {
  const named: { at: number; x: number; label: string; from: number }[] = [];
  // From the right, so that the newest keeps its name.
  for (const { at, label } of [...axis.ticks].reverse()) {
    const half = (label.length * CHARACTER) / 2;
    const x = Math.min(plot.x(at), plot.right - half);
    const next = named.at(-1);
    if (next === undefined || x + half + GAP <= next.from) named.push({ at, x, label, from: x - half });
  }
  return named;
}
