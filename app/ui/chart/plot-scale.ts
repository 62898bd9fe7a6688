'use client';

import { usePlotArea } from 'recharts';
import type { ChartView } from '@/lib/report/format/chart-view';

/** Where instants and values lie in the plot [px]; null before the first layout. */
export type PlotScale = {
  left: number;
  right: number;
  top: number;
  bottom: number;
  x: (time: number) => number;
  y: (value: number) => number;
};

export function usePlotScale({ axis, scale }: ChartView): PlotScale | null {
  const area = usePlotArea();
  if (area === undefined) return null;
  const { x, y, width, height } = area;
  return {
    left: x,
    right: x + width,
    top: y,
    bottom: y + height,
    x: (time) => x + ((time - axis.from) / (axis.end - axis.from)) * width,
    y: (value) => y + height - ((value - scale.min) / (scale.max - scale.min)) * height,
  };
}
