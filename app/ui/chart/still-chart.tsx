'use client';

import { useId } from 'react';
import type { ChartView } from '@/lib/report/format/chart-view';
import { Axes } from './axes';
import { Background } from './background';
import { placesOf } from './chart-rows';
import { Fade } from './fade';
import { Foreground } from './foreground';
import { Lane, LaneShade } from './lane';
import { LINE_LOOKS } from './line-looks';
import { bandPath, linePath } from './line-paths';
import { type PlotScale, plotArea, plotScale } from './plot-scale';

/**
 * The chart as a plain picture: it comes with the page, needs no script to be seen, and is drawn anew in a few milliseconds
 * when somebody looks closer.
 */
export function StillChart({ view, width, height }: { view: ChartView; width: number; height: number }) {
  const [fade, clip] = [useId(), useId()];
  const area = plotArea(view, { width, height });
  const plot = plotScale(view, area);
  return (
    <svg
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      preserveAspectRatio="xMinYMin meet"
      aria-hidden="true"
    >
      <defs>
        <Fade id={fade} />
        <clipPath id={clip}>
          <rect {...area} />
        </clipPath>
      </defs>
      <LaneShade view={view} plot={plot} />
      <Background view={view} plot={plot} />
      <Axes view={view} plot={plot} />
      <g clipPath={`url(#${clip})`}>
        <Band view={view} plot={plot} roles={['low', 'high']} fill="var(--trace-soft)" fillOpacity={0.28} />
        <Band view={view} plot={plot} roles={['p10', 'p90']} fill={`url(#${fade})`} fillOpacity={0.6} />
        {placesOf(view, 'p50').map((place) => (
          <path
            key={place}
            d={linePath(view.time, view.columns[place]!.values, plot)}
            fill="none"
            {...MEDIAN_LOOK}
          />
        ))}
        {placesOf(view, 'line').map((place) => (
          <path
            key={place}
            d={linePath(view.time, view.columns[place]!.values, plot)}
            fill="none"
            {...LINE_LOOKS[view.columns[place]!.style ?? 'main']}
          />
        ))}
      </g>
      <Lane view={view} plot={plot} />
      <Foreground view={view} plot={plot} />
    </svg>
  );
}

/** How the middle of the projection is drawn. */
export const MEDIAN_LOOK = { stroke: 'var(--trace-soft)', strokeWidth: 1, strokeDasharray: '2 4' };

type BandProps = {
  view: ChartView;
  plot: PlotScale;
  roles: [low: string, high: string];
  fill: string;
  fillOpacity: number;
};

function Band({ view, plot, roles, ...look }: BandProps) {
  const [low, high] = roles.map((role) => placesOf(view, role)[0]);
  if (low === undefined || high === undefined) return null;
  const { time, columns } = view;
  return <path d={bandPath(time, columns[low]!.values, columns[high]!.values, plot)} {...look} />;
}
