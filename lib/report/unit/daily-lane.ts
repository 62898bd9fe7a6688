import { REASONS } from '@/lib/core/checks/reasons';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import type { ChartLane } from '@/lib/report/format/chart-view';
import type { TimeAxis } from '@/lib/report/format/time-axis';
import { REASON_WORDS } from '@/lib/report/format/words';
import { startOfLocalDay } from '@/lib/time/local-day';
import type { DailyRows } from './daily-rows';
import { BY_PERSON, laneOf, type Tally } from './left-out-lane';

/** A day that lost less than this share of its readings is as usual and gets no bar; its remark says so all the same [-] (own choice). */
const LEAST_SHOWN_SHARE = 0.1;

/** What was left out day by day; readings while the unit stood still do not count against a day it ran on. */
export function dailyLane(
  daily: DailyColumns,
  axis: TimeAxis,
  { rows, buckets }: { rows: DailyRows; buckets: number },
): Pick<ChartLane, 'bars' | 'names' | 'remarks'> {
  const days = Array.from(daily.day, (_, row) => dayTally(daily, row, axis.timeZone)).filter(
    ({ from, to }) => to > axis.from && from < axis.end,
  );
  const shown = days.length > buckets ? inBuckets(days, axis, buckets) : days.filter(isShown);
  return {
    ...laneOf(shown, axis),
    remarks: rows.source.map((row) => (row < 0 ? null : dayRemark(daily, row))),
  };
}

function isShown({ readings, leftOut }: Tally): boolean {
  return leftOut >= LEAST_SHOWN_SHARE * readings;
}

/** Days as columns of pixels, those columns that hold a day worth showing: more bars than that cannot be told apart. */
function inBuckets(days: readonly Tally[], axis: TimeAxis, buckets: number): Tally[] {
  const end = axis.today ?? axis.end;
  const width = (end - axis.from) / buckets;
  const found = new Map<number, Tally & { isWorth: boolean }>();
  for (const day of days) {
    const index = Math.min(buckets - 1, Math.max(0, Math.floor((day.from - axis.from) / width)));
    const from = axis.from + index * width;
    const bucket = found.get(index) ?? {
      ...{ from, to: from + width, readings: 0, leftOut: 0, reasons: new Map() },
      isWorth: false,
    };
    found.set(index, bucket);
    bucket.readings += day.readings;
    bucket.leftOut += day.leftOut;
    bucket.isWorth ||= isShown(day);
    for (const [reason, count] of day.reasons)
      bucket.reasons.set(reason, (bucket.reasons.get(reason) ?? 0) + count);
  }
  return [...found.values()].filter(({ isWorth }) => isWorth);
}

function dayTally(daily: DailyColumns, row: number, timeZone: string): Tally {
  const day = daily.day[row]!;
  const reason = REASONS[daily.worstReason[row]!];
  const leftOut = ranAndLeftOut(daily, row);
  return {
    from: startOfLocalDay(day, timeZone),
    to: startOfLocalDay(day + 1, timeZone),
    readings: daily.readings[row]! - daily.off[row]!,
    leftOut,
    reasons: reason === undefined ? new Map() : new Map([[reason, leftOut]]),
  };
}

function ranAndLeftOut({ readings, accepted, off }: DailyColumns, row: number): number {
  return Math.max(0, readings[row]! - off[row]! - accepted[row]!);
}

function dayRemark(daily: DailyColumns, row: number): string | null {
  const readings = daily.readings[row]!;
  const leftOut = readings - daily.accepted[row]!;
  if (leftOut === 0) return null;
  const reason = REASONS[daily.worstReason[row]!];
  if (reason === undefined) return `${leftOut} of ${readings} left out`;
  const most = reason === BY_PERSON ? 'by a person' : `for: ${REASON_WORDS[reason]}`;
  return `${leftOut} of ${readings} left out, most ${most}`;
}
