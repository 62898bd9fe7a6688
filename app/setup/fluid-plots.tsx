import { formatNumber } from '@/lib/report/format/figure';
import type { FluidPlot, PlotPoint } from '@/lib/report/setup/fluid-plot';
import styles from './fluid-plots.module.css';

/** Size of one plot and the room around it, in its own units. */
const WIDTH = 220;
const HEIGHT = 140;
const LEFT = 44;
const RIGHT = 212;
const TOP = 8;
const BOTTOM = 118;

/** Each property over temperature as it was entered: its points, and the line that is used between them. */
export function FluidPlots({ plots, label }: { plots: FluidPlot[]; label: string }) {
  if (plots.length === 0) return null;
  return (
    <section className={styles.plots} aria-label={label}>
      {plots.map((plot) => (
        <figure key={plot.kind} className={styles.figure}>
          <figcaption className={styles.caption}>
            {plot.title} <span className={styles.unit}>{plot.unit}</span>
            {plot.note === null ? null : <span className={styles.note}> {plot.note}</span>}
          </figcaption>
          <Plot plot={plot} />
        </figure>
      ))}
    </section>
  );
}

function Plot({ plot }: { plot: FluidPlot }) {
  const { across, up, line, points, summary, temperatureUnit } = plot;
  const x = (temperature: number) =>
    place(LEFT + ((temperature - across.min) / (across.max - across.min)) * (RIGHT - LEFT));
  const y = (value: number) => place(BOTTOM - ((value - up.min) / (up.max - up.min)) * (BOTTOM - TOP));
  const at = ({ temperature, value }: PlotPoint) => `${x(temperature)},${y(value)}`;
  return (
    <svg className={styles.plot} viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={summary}>
      {up.ticks.map((tick) => (
        <g key={tick}>
          <line className={styles.grid} x1={LEFT} x2={RIGHT} y1={y(tick)} y2={y(tick)} />
          <text x={LEFT - 5} y={y(tick)} dy="0.35em" textAnchor="end">
            {formatNumber(tick, up.decimals)}
          </text>
        </g>
      ))}
      {across.ticks.map((tick, i) => (
        <text key={tick} x={x(tick)} y={BOTTOM + 15} textAnchor={anchorOf(i, across.ticks.length)}>
          {formatNumber(tick, across.decimals)}
          {i === across.ticks.length - 1 ? ` ${temperatureUnit}` : ''}
        </text>
      ))}
      <polyline className={styles.line} points={line.map(at).join(' ')} />
      {points.map((point, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: points have no other identity, and hold no state
        <circle key={i} className={styles.point} cx={x(point.temperature)} cy={y(point.value)} r="3" />
      ))}
    </svg>
  );
}

/** The figures at both ends stay within the plot. */
function anchorOf(i: number, count: number): 'start' | 'middle' | 'end' {
  if (i === 0) return 'start';
  return i === count - 1 ? 'end' : 'middle';
}

/** Tenths, so that server and browser write the same. */
function place(position: number): number {
  return Math.round(position * 10) / 10;
}
