import { DAILY_FLOAT_COLUMNS, type DailyColumns, makeDailyColumns } from '@/lib/core/series/daily-columns';
import { fromLocalDay, upToLocalDay } from '@/lib/core/series/slice-daily';
import { DAY_MS } from '@/lib/time/calendar-day';

/** Columns in the order in which a block holds them. Another order or number of them needs a new METHOD_VERSION. */
const COLUMNS = ['day', 'readings', 'accepted', 'off', 'worstReason', ...DAILY_FLOAT_COLUMNS] as const;
const BYTES = 8;

/** Daily figures of one calendar month. */
export type DailyBlock = { month: number; figures: Buffer };

/** Months since January 1970 that a local day lies in. */
export function monthOf(day: number): number {
  const date = new Date(day * DAY_MS);
  return (date.getUTCFullYear() - 1970) * 12 + date.getUTCMonth();
}

/** First local day of a month since January 1970. */
export function firstDayOf(month: number): number {
  return Date.UTC(1970, month, 1) / DAY_MS;
}

/** Daily figures as blocks of a month each, ascending. */
export function toBlocks(daily: DailyColumns): DailyBlock[] {
  const blocks: DailyBlock[] = [];
  for (let rest = daily; rest.day.length > 0; ) {
    const month = monthOf(rest.day[0]!);
    const next = firstDayOf(month + 1);
    blocks.push({ month, figures: encode(upToLocalDay(rest, next - 1)) });
    rest = fromLocalDay(rest, next);
  }
  return blocks;
}

/** A local day before all others. */
export const FIRST_DAY = -1e6;

function encode(daily: DailyColumns): Buffer {
  const length = daily.day.length;
  const values = new Float64Array(COLUMNS.length * length);
  COLUMNS.forEach((name, c) => {
    const column = daily[name];
    for (let i = 0; i < length; i++) {
      // There are many patterns of bits that are no number; equal figures must be equal bytes.
      values[c * length + i] = Number.isNaN(column[i]!) ? Number.NaN : column[i]!;
    }
  });
  return Buffer.from(values.buffer);
}

/** Rows of a block. */
export function daysIn(figures: Uint8Array): number {
  return figures.byteLength / (COLUMNS.length * BYTES);
}

/** Whether a block has the columns of today's schema. */
export function isWhole(figures: Uint8Array): boolean {
  return Number.isInteger(daysIn(figures));
}

/** Daily figures out of blocks in ascending order. */
export function fromBlocks(blocks: readonly Uint8Array[]): DailyColumns {
  const daily = makeDailyColumns(blocks.reduce((sum, block) => sum + daysIn(block), 0));
  let at = 0;
  for (const block of blocks) {
    const length = daysIn(block);
    const values = floatsOf(block);
    COLUMNS.forEach((name, c) => {
      const column = daily[name];
      // A loop: for so few values a view and `set` take longer.
      for (let i = 0; i < length; i++) column[at + i] = values[c * length + i]!;
    });
    at += length;
  }
  return daily;
}

/** The floats of a block; a driver's buffer may begin anywhere, floats must not. */
function floatsOf({ buffer, byteOffset, byteLength }: Uint8Array): Float64Array {
  const isAligned = byteOffset % BYTES === 0;
  if (isAligned) return new Float64Array(buffer, byteOffset, byteLength / BYTES);
  return new Float64Array(buffer.slice(byteOffset, byteOffset + byteLength));
}
