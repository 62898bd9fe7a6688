'use client';

import Link from 'next/link';
import { useRouter } from 'next/navigation';
import type { ChartView } from '@/lib/report/format/chart-view';
import { Button } from '../button/button';
import styles from './chart.module.css';
import { chartCsv } from './chart-csv';
import { ChartTable } from './chart-table';
import { TimeChart, type TimeChartProps } from './time-chart';

type Props = {
  view: ChartView;
  height: number;
  isTable: boolean;
  /** Address that shows the other of chart and table. */
  toggleHref: string;
  /** Address of a picked reading, `{time}` standing for its instant; null where nothing can be picked. */
  pickHref: string | null;
  fileName: string;
  /** Called with the stretch a person draws across the chart [ms]. */
  onSelect?: (from: number, to: number) => void;
  /** Every row of the chart, where the view holds only what can be seen. */
  readEveryRow?: () => Promise<ChartView>;
};

/** A chart with its title, one sentence for those who cannot see it, its table and its CSV. */
export function ChartFigure(props: Props) {
  const { view, height, isTable, toggleHref, pickHref, fileName, onSelect, readEveryRow } = props;
  const router = useRouter();
  const onPick =
    pickHref === null
      ? undefined
      : (time: number) =>
          router.push(pickHref.replace('{time}', `${new Date(time).toISOString().slice(0, 16)}Z`), {
            scroll: true,
          });
  return (
    <figure className={styles.figure} id={`figure-${view.name}`}>
      <figcaption className={styles.caption}>
        <h3>
          {view.title} <span className={styles.unit}>{view.unit}</span>
        </h3>
        <span className={`${styles.tools} screen-only`}>
          <Link
            href={toggleHref}
            scroll={false}
            className={styles.tool}
            aria-label={`${view.title}: show as ${isTable ? 'chart' : 'table'}`}
          >
            {isTable ? 'Chart' : 'Table'}
          </Link>
          <Button
            weight="quiet"
            aria-label={`${view.title}: download as CSV`}
            onClick={async () => {
              const isShort = view.isReduced === true && readEveryRow !== undefined;
              download(chartCsv(isShort ? await readEveryRow() : view), fileName);
            }}
          >
            CSV
          </Button>
        </span>
      </figcaption>
      <Drawing {...{ view, height, isTable, onPick, onSelect }} />
      {view.note === null || isTable ? null : <p className={styles.note}>{view.note}</p>}
    </figure>
  );
}

type DrawingProps = TimeChartProps & { isTable: boolean };

/** The chart or its table; where there is nothing to draw, a sentence says so and why. */
function Drawing({ view, height, isTable, onPick, onSelect }: DrawingProps) {
  const isEmpty = view.columns.every(({ values }) => values.every((value) => value === null));
  if (isEmpty) return <p className={styles.empty}>{view.summary}</p>;
  return isTable ? <ChartTable view={view} /> : <TimeChart {...{ view, height, onPick, onSelect }} />;
}

function download(text: string, fileName: string): void {
  const address = URL.createObjectURL(new Blob([`\ufeff${text}`], { type: 'text/csv;charset=utf-8' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  URL.revokeObjectURL(address);
}
