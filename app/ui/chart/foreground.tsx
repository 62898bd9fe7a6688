import type { ChartLevel, ChartView } from '@/lib/report/format/chart-view';
import styles from './chart.module.css';
import { CleanByBar } from './clean-by-bar';
import { EndLabels } from './end-labels';
import type { PlotScale } from './plot-scale';

/** In front of the lines: their labels, names of levels, outages and cleanings, and the clean-by bar. */
export function Foreground({ view, plot }: { view: ChartView; plot: PlotScale }) {
  return (
    <g className={styles.foreground}>
      {view.levels.map((level) => (
        <LevelName key={level.label} level={level} plot={plot} today={view.axis.today} />
      ))}
      {view.missing.map(({ from, to, label }) => (
        <text
          key={from}
          className={styles.missingLabel}
          x={(plot.x(from) + plot.x(to)) / 2}
          y={(plot.top + plot.bottom) / 2}
          textAnchor="middle"
        >
          {label}
        </text>
      ))}
      <TopLabels view={view} plot={plot} />
      <EndLabels view={view} plot={plot} />
      {view.cleanBy === null ? null : <CleanByBar cleanBy={view.cleanBy} plot={plot} />}
    </g>
  );
}

/** A limit is named at the left of its line, a tolerance right of the data, where nothing is in the way. */
function LevelName({ level, plot, today }: { level: ChartLevel; plot: PlotScale; today: number | null }) {
  const isLimit = level.role === 'limit';
  const x = isLimit || today === null ? plot.left + 4 : plot.x(today) + 6;
  return (
    <text className={styles.levelLabel} x={x} y={plot.y(level.value) - 4}>
      {level.label}
    </text>
  );
}

/** Rough width of a character of the small label type [px]. */
const CHARACTER = 5.6;
/** Least room between two names of a row, and from the top of the plot to a sign inside it [px]. */
const GAP = 4;
const SIGN_DROP = 12;

/** Names over the plot: cleanings and changes of the unit in the upper row, today and outages below; what would cover another is left unnamed. */
function TopLabels({ view, plot }: { view: ChartView; plot: PlotScale }) {
  const { axis, isNamingEvents } = view;
  const today =
    axis.today === null || !isNamingEvents
      ? []
      : [{ x: plot.x(axis.today), text: 'today', className: styles.todayLabel }];
  const outages = view.spans.map(({ from, to, label }) => ({
    x: (plot.x(from) + plot.x(to)) / 2,
    text: label,
    className: styles.outageLabel,
  }));
  const events = view.marks.map(({ at, label, symbol }) => ({
    x: plot.x(at),
    text: isNamingEvents ? `${symbol} ${label}` : symbol,
    short: symbol,
    className: styles.cleaningLabel,
  }));
  const lower = plot.top - 8;
  return (
    <>
      <LabelRow labels={[...today, ...(isNamingEvents ? outages : [])]} plot={plot} y={lower} />
      <LabelRow labels={events} plot={plot} y={isNamingEvents ? lower - 15 : lower} />
    </>
  );
}

type TopLabel = { x: number; text: string; short?: string; className: string | undefined };

function LabelRow({ labels, plot, y }: { labels: TopLabel[]; plot: PlotScale; y: number }) {
  const taken: [number, number][] = [];
  return labels.map(({ x, text, short, className }) => {
    const half = (text.length * CHARACTER) / 2;
    const centre = Math.min(Math.max(x, plot.left + half), plot.right - half);
    const isFree = taken.every(([from, to]) => centre + half + GAP < from || centre - half - GAP > to);
    if (isFree) taken.push([centre - half, centre + half]);
    else if (short === undefined) return null;
    return (
      <text
        key={`${x} ${text}`}
        className={className}
        x={isFree ? centre : x}
        // A sign without room for its words stands on its own line, inside the plot.
        y={isFree ? y : plot.top + SIGN_DROP}
        textAnchor="middle"
      >
        {isFree ? text : short}
      </text>
    );
  });
}
