import type { TimeAxis } from '@/lib/report/format/time-axis';

/** Room for the figures of the value axis [px]. */
export const AXIS_WIDTH = 52;
/** Room for the labels at the line ends [px]; the future part of the axis is used for them where it is wide enough. */
export const LABEL_WIDTH = 92;
const LEAST_MARGIN = 10;

/** Right margin of a chart of this width [px]; the same for all charts on one axis, so that their times line up. */
export function rightMargin(width: number, { futureShare }: TimeAxis): number {
  const missing = (LABEL_WIDTH - futureShare * (width - AXIS_WIDTH)) / (1 - futureShare);
  return Math.max(LEAST_MARGIN, missing);
}

/** The same as a CSS length, for rows that are no chart but share its axis. */
export function rightMarginCss({ futureShare }: TimeAxis): string {
  const share = futureShare.toFixed(4);
  return `max(${LEAST_MARGIN}px, calc((${LABEL_WIDTH}px - ${share} * (100% - ${AXIS_WIDTH}px)) / (1 - ${share})))`;
}
