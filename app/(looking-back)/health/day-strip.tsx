import type { DayCell } from '@/lib/report/health/health-view';
import styles from './health.module.css';

const WIDTH = 150;
const HEIGHT = 22;

/** A bar a day, as high as its share of usable readings; hatched where none arrived, a low line at standstill. */
export function DayStrip({ cells, sentence }: { cells: DayCell[]; sentence: string }) {
  const step = WIDTH / cells.length;
  return (
    <svg
      className={styles.strip}
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      width={WIDTH}
      height={HEIGHT}
      role="img"
      aria-label={sentence}
    >
      <title>{sentence}</title>
      <line className={styles.full} x1="0" x2={WIDTH} y1="0.5" y2="0.5" />
      {cells.map((cell, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: days in order, never moved
        <Day key={index} cell={cell} x={index * step} width={step - 1} />
      ))}
    </svg>
  );
}

function Day({ cell, x, width }: { cell: DayCell; x: number; width: number }) {
  if (cell === 'none') return <path className={styles.noReadings} d={`M${x} ${HEIGHT}L${x + width} 2`} />;
  if (cell === 'off')
    return <line className={styles.standstill} x1={x} x2={x + width} y1={HEIGHT - 0.75} y2={HEIGHT - 0.75} />;
  const high = Math.max(1.5, cell.share * HEIGHT);
  return <rect className={styles.usable} x={x} y={HEIGHT - high} width={width} height={high} />;
}
