import type { PlotScale } from './plot-scale';

type Values = readonly (number | null)[];

/** The path of a line through the rows that have a value, broken where one has none. */
export function linePath(time: readonly number[], values: Values, plot: PlotScale): string {
  let path = '';
  let isDown = false;
  values.forEach((value, row) => {
    if (value !== null) path += `${isDown ? 'L' : 'M'}${point(plot, time[row]!, value)}`;
    isDown = value !== null;
  });
  return path;
}

/** The outline of a band between two columns, one piece for each run of rows that have both. */
export function bandPath(time: readonly number[], low: Values, high: Values, plot: PlotScale): string {
  let path = '';
  for (let start = 0; start < time.length; start++) {
    if (low[start] == null || high[start] == null) continue;
    let end = start;
    while (end < time.length && low[end] != null && high[end] != null) end++;
    const upper = [];
    const lower = [];
    for (let row = start; row < end; row++) {
      upper.push(point(plot, time[row]!, high[row]!));
      lower.push(point(plot, time[row]!, low[row]!));
    }
    path += `M${[...upper, ...lower.reverse()].join('L')}Z`;
    start = end;
  }
  return path;
}

/** To a tenth of a pixel: finer is not seen, and would only make the page heavier. */
function point(plot: PlotScale, time: number, value: number): string {
  return `${round(plot.x(time))},${round(plot.y(value))}`;
}

function round(pixels: number): number {
  return Math.round(pixels * 10) / 10;
}
