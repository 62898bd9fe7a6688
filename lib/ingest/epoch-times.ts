import { plainName } from '@/lib/contract/plain-name';
import type { TimeFormat } from '@/lib/contract/time-format';
import { readColumnName } from './column-name';
import type { FoundTimes } from './found-times';
import { MS_PER_DAY } from './time-scanner';

/** A number without sign, exponent or thousands separators. */
export const PLAIN_NUMBER = /^\d{1,17}(?:[.,]\d{1,15})?$/;

const MS_PER_SECOND = 1000;
/** Seconds of today as a double are exact to a quarter of a microsecond only: 0.123 s must not become 122 ms. */
const HALF_STEP_MS = 5e-4;
/** From 1973 to 2286 seconds have 9 or 10 digits and milliseconds 12 or 13: neither is taken for the other. */
const EPOCH_MS = { from: 1e11, to: 1e13 };
/** Of spreadsheets: 1 March 1900, before which their calendar has a day too many, to the end of 9999. */
const SERIAL_DAYS = { from: 61, to: 2_958_466 };
/** Days from 30 December 1899 to 1970-01-01. */
const DAYS_TO_1970 = 25_569;

export type NumberFormat = Extract<TimeFormat, 'epoch-seconds' | 'epoch-milliseconds' | 'excel-serial'>;

export function isNumberFormat(format: TimeFormat): format is NumberFormat {
  return format === 'excel-serial' || format.startsWith('epoch-');
}

/** What a number counts, as ms since 1970, of a spreadsheet as if local time were UTC; NaN where it is out of range. */
export function timeOfNumber(text: string, format: NumberFormat): number {
  if (!PLAIN_NUMBER.test(text)) return Number.NaN;
  const number = Number(text.replace(',', '.'));
  if (format === 'excel-serial') {
    if (number < SERIAL_DAYS.from || number >= SERIAL_DAYS.to) return Number.NaN;
    return Math.round((number - DAYS_TO_1970) * MS_PER_DAY);
  }
  const ms = Math.floor(format === 'epoch-seconds' ? number * MS_PER_SECOND + HALF_STEP_MS : number);
  return ms >= EPOCH_MS.from && ms < EPOCH_MS.to ? ms : Number.NaN;
}

/** Times since 1970 where the column's name says so and every number is of the range; else not decided. */
export function epochOf(name: string, numbers: readonly string[]): FoundTimes {
  const written = readColumnName(name);
  const words = `${plainName(written.name)} ${written.unit ?? ''}`;
  const isEpoch = /epoch|unix|posix/.test(words);
  const says = {
    'epoch-seconds': isEpoch || /(?:time|stamp)s(?:ec(?:onds)?)?$| s(?:ec)?$/.test(words.trimEnd()),
    'epoch-milliseconds': isEpoch || /(?:time|stamp)(?:ms|millis(?:econds)?)$| ms$/.test(words.trimEnd()),
  };
  for (const format of ['epoch-seconds', 'epoch-milliseconds'] as const) {
    if (!says[format] || numbers.some((text) => Number.isNaN(timeOfNumber(text, format)))) continue;
    return { format, evidence: `"${name.trim()}" and its range say so` };
  }
  return { format: null, evidence: `"${numbers[0]}" is a plain number` };
}
