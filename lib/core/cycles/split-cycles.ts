import type { DailyColumns } from '../series/daily-columns';

/** A recorded cleaning: its instant [ms] and the local day it fell on. */
export type RecordedCleaning = { at: number; localDay: number };

/** One cycle as rows of the daily figures: `from` included, `to` excluded. */
export type CycleSpan = {
  /** Instant of the cleaning that began it [ms]; null for the record's first cycle. */
  start: number | null;
  /** Instant of the cleaning that ended it [ms]; null for the running one. */
  end: number | null;
  startDay: number;
  endDay: number;
  from: number;
  to: number;
};

/**
 * Splits the daily figures into cycles, each from one recorded cleaning to the next. A day's figure belongs to the cycle
 * of the readings behind it. Cleanings before the record only give the last of them as the start of its first cycle.
 *
 * @param daily     daily figures, days ascending
 * @param cleanings recorded cleanings, ascending
 * @returns cycles in order, the last one running; none without daily figures and cleanings
 * @range  any; a cycle may have no figure
 * @source METHODS §8
 * @check  tests/core/cycles/split-cycles.test.ts
 */
export function splitCycles(daily: DailyColumns, cleanings: readonly RecordedCleaning[]): CycleSpan[] {
  const rows = daily.day.length;
  if (rows === 0 && cleanings.length === 0) return [];
  const firstRows = cleanings.map((cleaning) => firstRowAfter(daily, cleaning));
  const cycles: CycleSpan[] = [];
  const known = firstRows.lastIndexOf(0);
  if (known < 0) cycles.push(cycleOf(daily, { cleanings, firstRows, index: -1 }));
  for (let index = Math.max(0, known); index < cleanings.length; index++) {
    cycles.push(cycleOf(daily, { cleanings, firstRows, index }));
  }
  return cycles;
}

/** The cycle that a cleaning began; index −1 is the record's first. */
function cycleOf(
  daily: DailyColumns,
  {
    cleanings,
    firstRows,
    index,
  }: { cleanings: readonly RecordedCleaning[]; firstRows: number[]; index: number },
): CycleSpan {
  const began = cleanings[index] ?? null;
  const ended = cleanings[index + 1] ?? null;
  const startDay = began?.localDay ?? daily.day[0] ?? ended!.localDay;
  return {
    start: began?.at ?? null,
    end: ended?.at ?? null,
    startDay,
    endDay: ended?.localDay ?? Math.max(startDay, daily.day.at(-1) ?? startDay),
    from: index < 0 ? 0 : firstRows[index]!,
    to: index + 1 < cleanings.length ? firstRows[index + 1]! : daily.day.length,
  };
}

/**
 * First row whose figure is of readings after a cleaning; a day without accepted readings goes by its date.
 *
 * @param daily    daily figures, days ascending
 * @param cleaning instant [ms] and local day
 * @returns index into the daily figures; their number where none is after it
 * @range  any
 * @source METHODS §8
 * @check  tests/core/cycles/split-cycles.test.ts
 */
export function firstRowAfter({ day, firstAccepted }: DailyColumns, cleaning: RecordedCleaning): number {
  let row = 0;
  for (let end = day.length; row < end; ) {
    const middle = (row + end) >>> 1;
    if (day[middle]! < cleaning.localDay) row = middle + 1;
    else end = middle;
  }
  return day[row] === cleaning.localDay && firstAccepted[row]! < cleaning.at ? row + 1 : row;
}
