'use client';

import { useId, useMemo } from 'react';
import { Area, ComposedChart, Line, Tooltip, XAxis, YAxis } from 'recharts';
import type { ChartView } from '@/lib/report/format/chart-view';
import type { TimeAxis } from '@/lib/report/format/time-axis';
import { Background } from './background';
import styles from './chart.module.css';
import { AXIS_WIDTH, rightMargin } from './chart-margins';
import { chartRows, placesOf, rangeKey } from './chart-rows';
import { ChartTip } from './chart-tip';
import { Foreground } from './foreground';
import { Lane } from './lane';
import { LINE_LOOKS } from './line-looks';
import { laneHeight } from './plot-scale';
import { useWidth } from './use-width';

type Props = {
  view: ChartView;
  height: number;
  /** Called with the instant a person points at and clicks. */
  onPick?: (time: number) => void;
};

/** One chart on the page's time axis: past solid, projection as a fading band, gaps kept, labels at the line ends. */
export function TimeChart({ view, height, onPick }: Props) {
  const fade = useId();
  const { ref, width } = useWidth();
  const rows = useMemo(() => chartRows(view), [view]);
  const margin = {
    top: view.isNamingEvents ? 34 : 18,
    right: rightMargin(width, view.axis),
    bottom: 0,
    left: 0,
  };
  const place = (role: string) => placesOf(view, role)[0];
  return (
    <div ref={ref} className={styles.plot} role="img" aria-label={view.summary}>
      <ComposedChart
        width={width}
        height={height}
        data={rows}
        margin={margin}
        accessibilityLayer={false}
        onClick={(_state, event) => onPick && pick(timeAt(event, view.axis, margin.right), view, onPick)}
      >
        <defs>
          <linearGradient id={fade} x1="0" x2="1" y1="0" y2="0">
            <stop offset="0" stopColor="var(--band)" stopOpacity="0.55" />
            <stop offset="1" stopColor="var(--band)" stopOpacity="0.12" />
          </linearGradient>
        </defs>
        <XAxis
          dataKey="time"
          type="number"
          scale="time"
          domain={[view.axis.from, view.axis.end]}
          allowDataOverflow
          ticks={view.axis.ticks.map(({ at }) => at)}
          tickFormatter={(at: number) => view.axis.ticks.find((tick) => tick.at === at)?.label ?? ''}
          tickLine={false}
          axisLine={{ stroke: 'var(--line-strong)' }}
          tick={{ fill: 'var(--ink-faint)', fontSize: 11 }}
          height={24}
          minTickGap={14}
        />
        <YAxis
          width={AXIS_WIDTH}
          domain={[view.scale.min, view.scale.max]}
          allowDataOverflow
          padding={{ bottom: laneHeight(view) }}
          ticks={view.scale.ticks}
          tickFormatter={(value: number) => value.toFixed(view.scale.decimals).replace('-', '−')}
          tickLine={false}
          axisLine={false}
          tick={{ fill: 'var(--ink-faint)', fontSize: 11 }}
          interval={0}
        />
        <Background view={view} />
        <Area
          dataKey={rangeKey(place('low'), place('high'))}
          {...BAND}
          fill="var(--trace-soft)"
          fillOpacity={0.28}
        />
        <Area dataKey={rangeKey(place('p10'), place('p90'))} {...BAND} fill={`url(#${fade})`} />
        {place('p50') === undefined ? null : (
          <Line
            {...LINE}
            dataKey={`values[${place('p50')}]`}
            stroke="var(--trace-soft)"
            strokeDasharray="2 4"
          />
        )}
        {placesOf(view, 'line').map((index) => (
          <Line
            key={index}
            {...LINE}
            dataKey={`values[${index}]`}
            {...LINE_LOOKS[view.columns[index]!.style ?? 'main']}
          />
        ))}
        <Lane view={view} />
        <Foreground view={view} />
        <Tooltip
          filterNull={false}
          content={(tip) => (
            <ChartTip
              view={view}
              row={tip.active ? tip.payload?.[0]?.payload : null}
              canPick={onPick !== undefined}
            />
          )}
          cursor={{ stroke: 'var(--control)', strokeWidth: 1 }}
          isAnimationActive={false}
        />
      </ComposedChart>
    </div>
  );
}

const BAND = {
  stroke: 'none',
  isAnimationActive: false,
  connectNulls: false,
  activeDot: false,
  type: 'linear',
} as const;
const LINE = {
  dot: false,
  activeDot: false,
  isAnimationActive: false,
  connectNulls: false,
  type: 'linear',
} as const;

function pick(time: number, { axis }: ChartView, onPick: (time: number) => void): void {
  // What is projected has no reading behind it.
  if (time >= axis.from && time <= (axis.today ?? axis.end)) onPick(Math.round(time));
}

/** The instant under the pointer; the library's own label lags behind a quick tap. */
function timeAt(event: { clientX: number; currentTarget: unknown }, axis: TimeAxis, right: number): number {
  const { left, width } = (event.currentTarget as Element).getBoundingClientRect();
  const share = (event.clientX - left - AXIS_WIDTH) / (width - AXIS_WIDTH - right);
  return axis.from + share * (axis.end - axis.from);
}
