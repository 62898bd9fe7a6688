import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { firstNotBefore } from '@/lib/core/series/first-not-before';

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
  const { day, foulingResistance } = daily;
  const readings = sumsBefore(daily.readings);
  const accepted = sumsBefore(daily.accepted);
  const days: TraceDay[] = [];
  for (let row = firstNotBefore(day, fromDay); row < day.length; row++) {
    if (Number.isNaN(foulingResistance[row]!)) continue;
    const first = Math.max(0, row - HEALTH_HALF_WINDOW);
    const end = Math.min(day.length, row + HEALTH_HALF_WINDOW + 1);
    // A day with a figure has readings.
    const usable = (accepted[end]! - accepted[first]!) / (readings[end]! - readings[first]!);
    days.push({ day: day[row]!, foulingResistance: foulingResistance[row]!, isPoor: usable < POOR_SHARE });
  }
  return days;
}

/** Sum of the counts before each place, and of all. */
function sumsBefore(counts: Int32Array): Int32Array {
  const sums = new Int32Array(counts.length + 1);
  for (let i = 0; i < counts.length; i++) sums[i + 1] = sums[i]! + counts[i]!;
  return sums;
}

export function writeTrace(days: readonly TraceDay[]): SummaryTrace {
  const runs: number[] = [];
  const bytes = new DataView(new ArrayBuffer(days.length * BYTES));
  let next = Number.NaN;
  let wasPoor = false;
  for (let index = 0; index < days.length; index++) {
    const { day, foulingResistance, isPoor } = days[index]!;
    bytes.setFloat32(index * BYTES, foulingResistance, true);
    if (day === next && isPoor === wasPoor) runs[runs.length - 2]!++;
    else runs.push(day, 1, Number(isPoor));
    next = day + 1;
    wasPoor = isPoor;
  }
  // Not spread, which would take ten times as long.
  const text: string = Reflect.apply(String.fromCharCode, null, new Uint8Array(bytes.buffer));
  return { runs, fouling: btoa(text) };
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
