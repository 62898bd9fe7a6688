import type { ChartView } from '@/lib/report/format/chart-view';
import { AXIS_WIDTH, rightMargin } from './chart-margins';

/** Where instants and values lie in the plot [px]. */
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
/** Room under the plot for the names of the time axis [px]. */
export const TIMES_HEIGHT = 24;
/** Room over the plot for names of events, and without any [px]. */
const EVENTS_HEIGHT = 34;
const TOP_HEIGHT = 18;

export function laneHeight({ lane }: ChartView): number {
  const isEmpty = lane === undefined || (lane.bars.length === 0 && lane.judged.length === 0);
  return isEmpty ? 0 : LANE_HEIGHT;
}

/** Room around the plot but for its axes [px]. */
export function chartMargin(view: ChartView, width: number) {
  return {
    top: view.isNamingEvents ? EVENTS_HEIGHT : TOP_HEIGHT,
    right: rightMargin(width, view.axis),
    bottom: 0,
    left: 0,
  };
}

/** A rectangle of the picture [px]. */
export type Area = { x: number; y: number; width: number; height: number };

/** The plot of a chart of a size [px]. */
export function plotArea(view: ChartView, { width, height }: { width: number; height: number }): Area {
  const { top, right } = chartMargin(view, width);
  return { x: AXIS_WIDTH, y: top, width: width - AXIS_WIDTH - right, height: height - top - TIMES_HEIGHT };
}

export function plotScale(view: ChartView, { x, y, width, height: whole }: Area): PlotScale {
  const { axis, scale } = view;
  const height = whole - laneHeight(view);
  return {
    left: x,
    right: x + width,
    top: y,
    bottom: y + height,
    foot: y + whole,
    x: (time) => x + ((time - axis.from) / (axis.end - axis.from)) * width,
    y: (value) => y + height - ((value - scale.min) / (scale.max - scale.min)) * height,
  };
}
