import type { ChartCleanBy } from '@/lib/report/format/chart-view';
import styles from './chart.module.css';
import type { PlotScale } from './plot-scale';

const HEIGHT = 8;
/** A bar at least this long has room for the names of its ends [px]. */
const ROOM_FOR_ENDS = 64;

/** P10 to P90 of the clean-by day as a bar on the limit with a tick at P50; said in words where it lies beyond the axis. */
export function CleanByBar({ cleanBy, plot }: { cleanBy: ChartCleanBy; plot: PlotScale }) {
  const y = plot.y(cleanBy.level);
  const from = plot.x(cleanBy.p10);
  const middle = plot.x(cleanBy.p50);
  const to = cleanBy.p90 === null ? Number.POSITIVE_INFINITY : plot.x(cleanBy.p90);
  if (from > plot.right) {
    return (
      <text className={styles.cleanByLabel} x={plot.right} y={y + 14} textAnchor="end">
        {cleanBy.label} →
      </text>
    );
  }
  const start = Math.max(from, plot.left);
  const end = Math.min(to, plot.right);
  const isTickSeen = middle <= plot.right;
  // The words stand under the bar, inside the plot.
  const centre = Math.min(Math.max(middle, plot.left + 60), plot.right - 64);
  return (
    <g>
      <rect
        className={styles.cleanBy}
        x={start}
        y={y - HEIGHT / 2}
        width={Math.max(2, end - start)}
        height={HEIGHT}
      />
      {end - start > ROOM_FOR_ENDS ? (
        <>
          <text className={styles.endName} x={start} y={y - 8} textAnchor="start">
            P10
          </text>
          {to > plot.right ? null : (
            <text className={styles.endName} x={end} y={y - 8} textAnchor="end">
              P90
            </text>
          )}
        </>
      ) : null}
      {isTickSeen ? (
        <line className={styles.cleanByTick} x1={middle} x2={middle} y1={y - 7} y2={y + 7} />
      ) : null}
      <text className={styles.cleanByLabel} x={centre} y={y + 19} textAnchor="middle">
        {cleanBy.label}
        {isTickSeen ? '' : ' →'}
      </text>
    </g>
  );
}
