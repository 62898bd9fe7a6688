import type { ChartLane, ChartView } from '@/lib/report/format/chart-view';
import styles from './chart.module.css';
import { laneHeight, type PlotScale } from './plot-scale';

/** Height of a bar where every reading was left out, and of the least there is [px]. */
const BAR_HEIGHT = 9;
const LEAST_BAR_HEIGHT = 2;
/** Height of the ends of a bracket around a judged period [px]. */
const BRACKET = 4;
/** Rough width of a character of the lane's type, and least room between two names [px]. */
const CHARACTER = 5.4;
const GAP = 6;

type Props = { view: ChartView; plot: PlotScale };

/** Behind everything: the periods that people judged. */
export function LaneShade({ view, plot }: Props) {
  return (view.lane?.judged ?? []).map(({ from, to, label }) => (
    <rect
      key={`${from} ${label}`}
      className={styles.judged}
      x={plot.x(from)}
      width={Math.max(1, plot.x(to) - plot.x(from))}
      y={plot.top}
      height={plot.foot - plot.top}
    />
  ));
}

/** The lane at the foot of a plot: how much was left out when, for which reason, and what people judged. */
export function Lane({ view, plot }: Props) {
  const { lane } = view;
  if (lane === undefined || laneHeight(view) === 0) return null;
  return (
    <g className={styles.foreground}>
      {lane.bars.length === 0 ? null : (
        <text className={styles.laneName} x={plot.left - 6} y={plot.foot - 1} textAnchor="end">
          left out
        </text>
      )}
      {lane.bars.map((bar) => (
        <Bar key={bar.from} bar={bar} plot={plot} />
      ))}
      {lane.judged.map(({ from, to, label }) => (
        <path
          key={`${from} ${label}`}
          className={styles.bracket}
          d={bracket(plot.x(from), plot.x(to), plot.foot - BAR_HEIGHT - 1)}
        />
      ))}
      {namesOf(lane, plot).map(({ x, text, className }) => (
        <text key={`${x} ${text}`} className={className} x={x} y={plot.bottom + 11} textAnchor="middle">
          {text}
        </text>
      ))}
    </g>
  );
}

function Bar({ bar: { from, to, share }, plot }: { bar: ChartLane['bars'][number]; plot: PlotScale }) {
  const left = Math.max(plot.left, plot.x(from));
  const height = Math.max(LEAST_BAR_HEIGHT, share * BAR_HEIGHT);
  return (
    <rect
      className={styles.laneBar}
      x={left}
      width={Math.max(1, Math.min(plot.right, plot.x(to)) - left)}
      y={plot.foot - height}
      height={height}
    />
  );
}

/** A line over a stretch with both of its ends turned down. */
function bracket(from: number, to: number, y: number): string {
  return `M ${from} ${y + BRACKET} V ${y} H ${Math.max(to, from + 2)} V ${y + BRACKET}`;
}

type Name = { x: number; text: string; className: string | undefined };

/** People's words first, the whole or the short of it, then the reasons that fit over their stretch; none covers another. */
function namesOf(lane: ChartLane, plot: PlotScale): Name[] {
  const taken: [number, number][] = [];
  const placed: Name[] = [];
  const place = (span: { from: number; to: number }, text: string, className: string | undefined) => {
    const half = (text.length * CHARACTER) / 2;
    const middle = (plot.x(span.from) + plot.x(span.to)) / 2;
    const x = Math.min(Math.max(middle, plot.left + half), plot.right - half);
    const isFree = taken.every(([from, to]) => x + half + GAP < from || x - half - GAP > to);
    if (!isFree || x - half < plot.left - 1) return false;
    taken.push([x - half, x + half]);
    placed.push({ x, text, className });
    return true;
  };
  for (const span of lane.judged) {
    if (!place(span, span.label, styles.judgedName)) place(span, span.short, styles.judgedName);
  }
  for (const span of lane.names) {
    const room = plot.x(span.to) - plot.x(span.from);
    if (span.label.length * CHARACTER <= room) place(span, span.label, styles.laneName);
  }
  return placed;
}
