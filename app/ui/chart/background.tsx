import { useId } from 'react';
import type { ChartLevel, ChartView } from '@/lib/report/format/chart-view';
import styles from './chart.module.css';
import type { PlotScale } from './plot-scale';

/** Behind the lines: value grid, outages, levels, cleanings and today. */
export function Background({ view, plot }: { view: ChartView; plot: PlotScale }) {
  const hatch = useId();
  const { axis } = view;
  return (
    <>
      <defs>
        <pattern id={hatch} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line className={styles.hatch} x1="0" x2="0" y1="0" y2="7" />
        </pattern>
      </defs>
      <g className={styles.background}>
        {view.spans.map((span) => (
          <g key={`${span.from} ${span.label}`}>
            <rect
              className={styles.outage}
              x={plot.x(span.from)}
              width={Math.max(1, plot.x(span.to) - plot.x(span.from))}
              y={plot.top}
              height={plot.foot - plot.top}
            />
          </g>
        ))}
        {view.missing.map((span) => (
          <rect
            key={span.from}
            fill={`url(#${hatch})`}
            x={plot.x(span.from)}
            width={Math.max(1, plot.x(span.to) - plot.x(span.from))}
            y={plot.top}
            height={plot.bottom - plot.top}
          />
        ))}
        {view.scale.ticks.map((value) => (
          <line
            key={value}
            className={value === 0 ? styles.zero : styles.grid}
            x1={plot.left}
            x2={axis.today === null ? plot.right : plot.x(axis.today)}
            y1={plot.y(value)}
            y2={plot.y(value)}
          />
        ))}
        {view.levels.map((level) => (
          <line
            key={level.label}
            className={LEVEL_CLASSES[level.role]}
            x1={plot.left}
            x2={plot.right}
            y1={plot.y(level.value)}
            y2={plot.y(level.value)}
          />
        ))}
        {view.marks.map((mark) => (
          <line
            key={mark.at}
            className={styles.cleaning}
            x1={plot.x(mark.at)}
            x2={plot.x(mark.at)}
            y1={plot.top}
            y2={plot.foot}
          />
        ))}
        {axis.today === null ? null : (
          <line
            className={styles.today}
            x1={plot.x(axis.today)}
            x2={plot.x(axis.today)}
            y1={plot.top - 6}
            y2={plot.foot}
          />
        )}
      </g>
    </>
  );
}

const LEVEL_CLASSES: Record<ChartLevel['role'], string | undefined> = {
  limit: styles.limit,
  tolerance: styles.tolerance,
  clean: styles.tolerance,
};
