'use client';

import { useId, useMemo } from 'react';
import { Area, ComposedChart, Line, Tooltip, usePlotArea, XAxis, YAxis, ZIndexLayer } from 'recharts';
import type { ChartView } from '@/lib/report/format/chart-view';
import { Axes } from './axes';
import { Background } from './background';
import { AXIS_WIDTH } from './chart-margins';
import { type ChartRow, chartRows, placesOf, rangeKey } from './chart-rows';
import { ChartTip } from './chart-tip';
import { Fade } from './fade';
import { Foreground } from './foreground';
import { Lane, LaneShade } from './lane';
import { LINE_LOOKS } from './line-looks';
import { chartMargin, laneHeight, plotScale, TIMES_HEIGHT } from './plot-scale';
import { MEDIAN_LOOK } from './still-chart';

type Props = { view: ChartView; width: number; height: number; canPick: boolean };

/** The same picture with the values under the pointer. Loaded when a pointer first comes near a chart. */
export function LiveChart({ view, width, height, canPick }: Props) {
  const fade = useId();
  const rows = useMemo(() => chartRows(view), [view]);
  const place = (role: string) => placesOf(view, role)[0];
  return (
    <ComposedChart
      width={width}
      height={height}
      data={rows}
      margin={chartMargin(view, width)}
      accessibilityLayer={false}
    >
      <defs>
        <Fade id={fade} />
      </defs>
      <XAxis
        dataKey="time"
        type="number"
        scale="time"
        domain={[view.axis.from, view.axis.end]}
        allowDataOverflow
        tick={false}
        tickLine={false}
        axisLine={false}
        height={TIMES_HEIGHT}
      />
      <YAxis
        width={AXIS_WIDTH}
        domain={[view.scale.min, view.scale.max]}
        allowDataOverflow
        padding={{ bottom: laneHeight(view) }}
        tick={false}
        tickLine={false}
        axisLine={false}
      />
      <Around view={view} />
      <Area
        dataKey={rangeKey(place('low'), place('high'))}
        {...BAND}
        fill="var(--trace-soft)"
        fillOpacity={0.28}
      />
      <Area dataKey={rangeKey(place('p10'), place('p90'))} {...BAND} fill={`url(#${fade})`} />
      {placesOf(view, 'p50').map((index) => (
        <Line key={index} {...LINE} dataKey={`values[${index}]`} {...MEDIAN_LOOK} />
      ))}
      {placesOf(view, 'line').map((index) => (
        <Line
          key={index}
          {...LINE}
          dataKey={`values[${index}]`}
          {...LINE_LOOKS[view.columns[index]!.style ?? 'main']}
        />
      ))}
      <Tooltip
        filterNull={false}
        content={(tip) => (
          <ChartTip
            view={view}
            row={tip.active ? rowOf(tip.payload?.[0]?.payload) : null}
            canPick={canPick}
          />
        )}
        cursor={{ stroke: 'var(--control)', strokeWidth: 1 }}
        isAnimationActive={false}
      />
    </ComposedChart>
  );
}

/** What stands behind and before the lines, where this library has laid out the plot. */
function Around({ view }: { view: ChartView }) {
  const area = usePlotArea();
  if (area === undefined) return null;
  const plot = plotScale(view, area);
  return (
    <>
      <ZIndexLayer zIndex={-110}>
        <LaneShade view={view} plot={plot} />
        <Background view={view} plot={plot} />
        <Axes view={view} plot={plot} />
      </ZIndexLayer>
      <ZIndexLayer zIndex={900}>
        <Lane view={view} plot={plot} />
        <Foreground view={view} plot={plot} />
      </ZIndexLayer>
    </>
  );
}

function rowOf(payload: ChartRow | undefined): ChartRow | null {
  return payload ?? null;
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
