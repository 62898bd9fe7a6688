import type { ChartColumn, ChartView } from '@/lib/report/format/chart-view';
import styles from './chart.module.css';
import type { PlotScale } from './plot-scale';

/** Least distance between two labels [px]. */
const LINE_HEIGHT = 14;

/** Each line's name and last value where it ends, so that an old value never stands at today; no legend. A single line needs no name: the title is its name. */
export function EndLabels({ view, plot }: { view: ChartView; plot: PlotScale }) {
  const lines = view.columns.filter(({ role }) => role === 'line');
  if (lines.length < 2) return null;
  const labels = lines.flatMap((column) => {
    const row = column.values.findLastIndex((value) => value !== null);
    const last = column.values[row];
    if (last == null) return [];
    const x = plot.x(view.time[row]!) + 6;
    return [{ text: labelOf(column, last), x, y: plot.y(last), isSoft: column.style?.startsWith('second') }];
  });
  return spread(labels, plot).map(({ text, x, y, isSoft }) => (
    <text
      key={text}
      className={isSoft ? styles.endLabelSoft : styles.endLabel}
      x={x}
      y={y}
      dominantBaseline="central"
    >
      {text}
    </text>
  ));
}

function labelOf({ label, decimals }: ChartColumn, value: number): string {
  return `${label} ${value.toFixed(decimals).replace('-', '−')}`;
}

/** Moves labels apart until none covers another, as little as can be, inside the plot. */
function spread<Label extends { y: number }>(labels: Label[], { top, bottom }: PlotScale): Label[] {
  const sorted = labels.map((label) => ({ ...label })).sort((a, b) => a.y - b.y);
  const floor = bottom - 4;
  sorted.forEach((label, i) => {
    const least = i === 0 ? top : sorted[i - 1]!.y + LINE_HEIGHT;
    label.y = Math.max(label.y, least);
  });
  for (let i = sorted.length - 1; i >= 0; i--) {
    const most = i === sorted.length - 1 ? floor : sorted[i + 1]!.y - LINE_HEIGHT;
    sorted[i]!.y = Math.min(sorted[i]!.y, most);
  }
  return sorted;
}
