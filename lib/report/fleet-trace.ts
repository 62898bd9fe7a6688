import type { TraceDay } from './fleet/summary-trace';
import type { SummaryBand } from './fleet/unit-summary';
import { type DaySpan, shareOf } from './time-axis';

/** The picture of a row is `ACROSS` wide and `DOWN` high in whole numbers, whatever its size on screen. */
export const ACROSS = 2000;
export const DOWN = 100;

/** The shares of allowance at the bottom and top of every row: one scale for the whole fleet. */
export type ShareScale = { low: number; high: number };

/** SVG path data; `dashed` is where few readings of the days around were usable. */
export type Trace = { solid: string; dashed: string };

export type TracePoint = { day: number; share: number; isPoor: boolean; startsAnew: boolean };

/** Days without a figure after which the line breaks; daily figures, so a long weekend off still joins. */
const GAP_DAYS = 4;

/**
 * Daily fouling as share of the allowance within a span, the line broken at gaps and at the first day of each cycle.
 *
 * @param allowance fouling resistance at which the governing limit is reached [m²·K/W]
 */
export function tracePoints(
  days: readonly TraceDay[],
  allowance: number,
  { span, cycleStarts }: { span: DaySpan; cycleStarts: readonly number[] },
): TracePoint[] {
  const starts = [...cycleStarts].sort((a, b) => a - b);
  const points: TracePoint[] = [];
  let last = Number.NEGATIVE_INFINITY;
  let passed = 0;
  for (const { day, foulingResistance, isPoor } of days) {
    if (day < span.from) continue;
    if (day >= span.to) break;
    while (passed < starts.length && starts[passed]! < last) passed++;
    // The figure of a cleaning's own day is half before, half after: it joins neither side.
    const startsAnew = day - last > GAP_DAYS || (passed < starts.length && starts[passed]! <= day);
    points.push({ day, share: foulingResistance / allowance, isPoor, startsAnew });
    last = day;
  }
  return points;
}

/**
 * At most about `budget` points: in each bucket of days the lowest and the highest, in order of time, so that no peak is lost.
 * A break in the line begins a new bucket.
 */
export function reducePoints(points: TracePoint[], budget: number): TracePoint[] {
  if (points.length <= budget) return points;
  const first = points[0]!.day;
  const bucketDays = (points[points.length - 1]!.day - first + 1) / Math.max(1, Math.floor(budget / 2));
  const reduced: TracePoint[] = [];
  for (let from = 0; from < points.length; ) {
    const bucket = Math.floor((points[from]!.day - first) / bucketDays);
    let to = from + 1;
    while (
      to < points.length &&
      !points[to]!.startsAnew &&
      Math.floor((points[to]!.day - first) / bucketDays) === bucket
    )
      to++;
    reduced.push(...extremes(points, from, to));
    from = to;
  }
  return reduced;
}

function extremes(points: TracePoint[], from: number, to: number): TracePoint[] {
  let low = from;
  let high = from;
  for (let at = from; at < to; at++) {
    if (points[at]!.share < points[low]!.share) low = at;
    if (points[at]!.share > points[high]!.share) high = at;
  }
  const chosen = [...new Set([low, high])].sort((a, b) => a - b).map((at) => points[at]!);
  // The break must stay with the first point kept of its bucket.
  return chosen.map((point, index) =>
    index === 0 ? { ...point, startsAnew: points[from]!.startsAnew } : { ...point, startsAnew: false },
  );
}

/** Height of a share of allowance in the row, from the top, in `DOWN`. */
export function heightOf(share: number, scale: ShareScale): number {
  return Math.round((DOWN * (scale.high - share)) / (scale.high - scale.low));
}

/** Path data of the points, each stretch between two points solid or dashed; `l` is relative and short. */
export function drawTrace(points: TracePoint[], span: DaySpan, scale: ShareScale): Trace {
  const paths = { solid: '', dashed: '' };
  let drawn: 'solid' | 'dashed' | null = null;
  let [x, y] = [0, 0];
  for (const [index, point] of points.entries()) {
    const toX = Math.round(ACROSS * shareOf(span, point.day + 0.5));
    const toY = heightOf(point.share, scale);
    if (index > 0 && !point.startsAnew) {
      const style = point.isPoor ? 'dashed' : 'solid';
      if (drawn !== style) paths[style] += `M${x} ${y}`;
      paths[style] += toY < y ? `l${toX - x}${toY - y}` : `l${toX - x} ${toY - y}`;
      drawn = style;
    } else drawn = null;
    [x, y] = [toX, toY];
  }
  return paths;
}

/** The projected band from P10 to P90 as a closed path. It ends where it meets the limit: there the clean-by bar takes over. */
export function drawBand(
  band: SummaryBand,
  { span, scale, allowance }: { span: DaySpan; scale: ShareScale; allowance: number },
): string | null {
  const upper: string[] = [];
  const lower: string[] = [];
  for (const [at, day] of band.day.entries()) {
    const across = Math.round(ACROSS * shareOf(span, day));
    const [p10, p90] = [band.p10[at]!, band.p90[at]!];
    if (p10 === null || p90 === null || across < 0) continue;
    upper.push(`${across} ${heightOf(Math.min(p90 / allowance, 1), scale)}`);
    lower.push(`${across} ${heightOf(Math.min(p10 / allowance, 1), scale)}`);
    if (p10 / allowance >= 1 || across > ACROSS) break;
  }
  return upper.length < 2 ? null : `M${upper.join('L')}L${lower.reverse().join('L')}Z`;
}
