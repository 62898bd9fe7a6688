import type { DailyColumns } from '@/lib/core/series/daily-columns';

/** A day's fouling for the picture of a row; `isPoor` where few readings of the days around were usable. */
export type TraceDay = { day: number; foulingResistance: number; isPoor: boolean };

/**
 * Days with a figure, small enough to be read for every unit of a large fleet: runs of days that follow one another with
 * the same health (first day, how many, 1 where poor), and their fouling as 32-bit little-endian floats in base 64.
 * Seven digits are a thousand times finer than a row can draw.
 */
export type SummaryTrace = { runs: number[]; fouling: string };

/** Below this share of accepted readings, over a week, a figure is drawn as doubtful [-]. */
export const POOR_SHARE = 0.5;
const HEALTH_HALF_WINDOW = 3;
const BYTES = 4;

/** Days with a figure from a local day on. */
export function traceDays(daily: DailyColumns, fromDay: number): TraceDay[] {
  const days: TraceDay[] = [];
  for (let row = firstRowFrom(daily.day, fromDay); row < daily.day.length; row++) {
    const foulingResistance = daily.foulingResistance[row]!;
    if (Number.isNaN(foulingResistance)) continue;
    days.push({ day: daily.day[row]!, foulingResistance, isPoor: usableAround(daily, row) < POOR_SHARE });
  }
  return days;
}

/** First row of a day or later, by halving. */
function firstRowFrom(days: Int32Array, from: number): number {
  let [low, high] = [0, days.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (days[middle]! < from) low = middle + 1;
    else high = middle;
  }
  return low;
}

function usableAround(daily: DailyColumns, row: number): number {
  let readings = 0;
  let accepted = 0;
  const end = Math.min(daily.day.length - 1, row + HEALTH_HALF_WINDOW);
  for (let at = Math.max(0, row - HEALTH_HALF_WINDOW); at <= end; at++) {
    readings += daily.readings[at]!;
    accepted += daily.accepted[at]!;
  }
  return readings === 0 ? 0 : accepted / readings;
}

export function writeTrace(days: readonly TraceDay[]): SummaryTrace {
  const runs: number[] = [];
  const bytes = new DataView(new ArrayBuffer(days.length * BYTES));
  for (const [index, { day, foulingResistance, isPoor }] of days.entries()) {
    bytes.setFloat32(index * BYTES, foulingResistance, true);
    const [first, count, poor] = runs.slice(-3) as [number, number, number];
    if (runs.length > 0 && day === first + count && poor === Number(isPoor)) runs[runs.length - 2]!++;
    else runs.push(day, 1, Number(isPoor));
  }
  return { runs, fouling: btoa(String.fromCharCode(...new Uint8Array(bytes.buffer))) };
}

export function readTrace({ runs, fouling }: SummaryTrace): TraceDay[] {
  const text = atob(fouling);
  const bytes = new DataView(new ArrayBuffer(text.length));
  for (let at = 0; at < text.length; at++) bytes.setUint8(at, text.charCodeAt(at));
  const days: TraceDay[] = [];
  for (let run = 0; run < runs.length; run += 3) {
    const [first, count, poor] = runs.slice(run, run + 3) as [number, number, number];
    for (let day = first; day < first + count; day++) {
      const foulingResistance = bytes.getFloat32(days.length * BYTES, true);
      days.push({ day, foulingResistance, isPoor: poor === 1 });
    }
  }
  return days;
}
