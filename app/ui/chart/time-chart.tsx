'use client';

import { lazy, Suspense, useState } from 'react';
import { useWidth } from '@/app/ui/use-width';
import type { ChartView } from '@/lib/report/format/chart-view';
import styles from './chart.module.css';
import { rightMargin } from './chart-margins';
import { StillChart } from './still-chart';
import { useChartPointer } from './use-chart-pointer';

/** Width assumed while the page is still on the server [px]. */
const USUAL_WIDTH = 1100;

/** The charting library, two fifths of the page's scripts, is fetched when somebody first points at a chart. */
const LiveChart = lazy(async () => ({ default: (await import('./live-chart')).LiveChart }));

export type TimeChartProps = {
  view: ChartView;
  height: number;
  /** Called with the instant a person points at and clicks. */
  onPick?: (time: number) => void;
  /** Called with the stretch a person draws across the chart. */
  onSelect?: (from: number, to: number) => void;
};

/** One chart on the page's time axis: past solid, projection as a fading band, gaps kept, labels at the line ends. */
export function TimeChart({ view, height, onPick, onSelect }: TimeChartProps) {
  const [ref, width] = useWidth<HTMLDivElement>(USUAL_WIDTH);
  const [pointedAt, setPointedAt] = useState<ChartView | null>(null);
  const { axis } = view;
  const selected = useChartPointer(ref, {
    axis,
    right: rightMargin(width, axis),
    onPoint: () => setPointedAt(view),
    // What is projected has no reading behind it.
    onPick: (time) => {
      if (time >= axis.from && time <= (axis.today ?? axis.end)) onPick?.(Math.round(time));
    },
    onSelect,
  });
  const still = <StillChart view={view} width={width} height={height} />;
  return (
    <div
      ref={ref}
      className={`${styles.plot} ${onSelect === undefined ? '' : styles.selectable}`}
      style={{ height }}
      role="img"
      aria-label={view.summary}
    >
      {pointedAt === view ? (
        <Suspense fallback={still}>
          <LiveChart view={view} width={width} height={height} canPick={onPick !== undefined} />
        </Suspense>
      ) : (
        still
      )}
      {selected === null ? null : (
        <div className={styles.selection} style={{ left: selected.left, width: selected.width }} />
      )}
    </div>
  );
}
