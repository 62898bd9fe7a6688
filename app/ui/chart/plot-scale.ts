'use client';

import { usePlotArea } from 'recharts';
import type { ChartView } from '@/lib/report/format/chart-view';

/** Where instants and values lie in the plot [px]; null before the first layout. */
export type PlotScale = {
  left: number;
  right: number;
  top: number;
  /** Where the lowest value lies; below it the lane, down to `foot`. */
  bottom: number;
  foot: number;
  x: (time: number) => number;
  y: (value: number) => number;
};

/** Room under the lowest value for what was left out: a row of names over a row of bars [px]. */
const LANE_HEIGHT = 24;

export function laneHeight({ lane }: ChartView): number {
  const isEmpty = lane === undefined || (lane.bars.length === 0 && lane.judged.length === 0);
  return isEmpty ? 0 : LANE_HEIGHT;
}

export function usePlotScale(view: ChartView): PlotScale | null {
  const area = usePlotArea();
  if (area === undefined) return null;
  const { axis, scale } = view;
  const { x, y, width } = area;
  const height = area.height - laneHeight(view);
  return {
    left: x,
    right: x + width,
    top: y,
    bottom: y + height,
    foot: y + area.height,
    x: (time) => x + ((time - axis.from) / (axis.end - axis.from)) * width,
    y: (value) => y + height - ((value - scale.min) / (scale.max - scale.min)) * height,
  };
}
