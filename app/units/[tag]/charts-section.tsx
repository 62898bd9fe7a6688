'use client';

import { type MouseEvent, useRef } from 'react';
import { ChartFigure } from '@/app/ui/chart/chart-figure';
import { Section } from '@/app/ui/section/section';
import type { ChartsView } from '@/lib/report/unit/charts-view';
import type { FigureName } from '@/lib/report/unit/unit-address';
import { localDay } from '@/lib/time/local-clock';
import { fetchEveryRow } from './fetch-charts';
import { PeriodBar } from './period-bar';
import styles from './unit.module.css';
import { useCharts } from './use-charts';
import { useZoomKeys } from './use-zoom-keys';

/** The first chart carries the judgement and gets the most room [px]. */
const HEIGHTS: Record<string, number> = { fouling: 300, balance: 130, flows: 150 };
const USUAL_HEIGHT = 180;

/** Every chart of the page over one period, which a reader changes by a stretch drawn, a wheel, a key or a button. */
export function ChartsSection({ charts: given }: { charts: ChartsView }) {
  const { shown, target, isLooking, look, lookAt } = useCharts(given);
  const { period, axis, charts, pickHref } = shown;
  const place = useRef<HTMLDivElement>(null);
  useZoomKeys(place, { target, limits: period.limits, axis, lookAt, onReset: () => look(period.reset) });
  const follow = (event: MouseEvent, href: string) => {
    // What opens another tab or window is the browser's own.
    if (event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
    event.preventDefault();
    look(href);
  };
  const select = (from: number, to: number) =>
    lookAt({
      fromDay: localDay(from, axis.timeZone),
      // A stretch that ends where a day begins does not hold that day.
      toDay: Math.max(localDay(from, axis.timeZone), localDay(to - 1, axis.timeZone)),
    });
  return (
    <Section
      id="charts"
      title="Over time"
      actions={<PeriodBar period={period} onFollow={follow} onDays={lookAt} />}
    >
      <p className="print-only">{period.label}</p>
      <p className="unseen" role="status">
        {isLooking ? 'Looking …' : `Shown: ${period.label}`}
      </p>
      <p className={`${styles.zoomHint} screen-only`}>
        Draw a stretch across a chart to look closer. Also: + and −, arrow keys, 0 for how the page opens;
        Ctrl and the wheel.
      </p>
      <div ref={place} className={styles.charts} aria-busy={isLooking}>
        {charts.map(({ view, isTable, toggleHref, fileName }) => (
          <ChartFigure
            key={view.name}
            view={view}
            height={HEIGHTS[view.name] ?? USUAL_HEIGHT}
            isTable={isTable}
            toggleHref={toggleHref}
            pickHref={pickHref}
            fileName={fileName}
            onSelect={select}
            readEveryRow={() =>
              fetchEveryRow(period.href, view.name as FigureName).then((found) => found.charts[0]!.view)
            }
          />
        ))}
      </div>
    </Section>
  );
}
