import { TIME_FORMAT_WORDS, type TimeFormat } from '@/lib/contract/time-formats';
import { PLAIN_NUMBER } from './epoch-times';
import type { FoundTimes } from './found-times';
import { quoted } from './set-aside';
import { type DateOrder, TimeScanner } from './time-scanner';

/** Longer texts are quoted, not looked into. */
const MAX_LOOKED_CHARACTERS = 60;

/** Why a text is no time of its file, and what to do about it. */
export function timeFault(written: string, { format, evidence }: FoundTimes): string {
  const shape = written.length > MAX_LOOKED_CHARACTERS ? null : shapeFault(written, format);
  if (shape !== null) return `${quoted(written)} ${shape}`;
  if (format === null || format === 'iso') {
    return `${quoted(written)} is no time as ISO 8601 writes it, such as 2026-11-25T08:30:00+01:00`;
  }
  const shown = evidence === '' ? '' : ` (${evidence})`;
  return `${quoted(written)} is no time as the others of this file, which are ${TIME_FORMAT_WORDS[format]}${shown}; mend it, or name the format as timeFormat`;
}

function shapeFault(written: string, format: TimeFormat | null): string | null {
  if (PLAIN_NUMBER.test(written) && (format === null || !isCount(format))) {
    return 'is a plain number; format the column as date and time, write times as ISO 8601, or name what it counts as timeFormat: excel-serial, epoch-seconds or epoch-milliseconds';
  }
  const abbreviation = /\d ?([A-Z]{2,5})$/.exec(written)?.[1];
  if (abbreviation !== undefined && !/^[AP]M$/.test(abbreviation)) {
    return `ends with "${abbreviation}": abbreviations of zones are not unique; write an offset such as +01:00, or leave it out and name the file's time zone`;
  }
  if (/^\d{1,2}[/-]\d{1,2}[/-]\d\d\b/.test(written)) {
    return 'has a year of two digits, which may be the day as well; write all four';
  }
  return format === null ? null : orderFault(written, format);
}

function isCount(format: TimeFormat): boolean {
  return format === 'excel-serial' || format.startsWith('epoch-');
}

function orderFault(written: string, format: TimeFormat): string | null {
  const scanner = new TimeScanner();
  const scanned = scanner.scan(written);
  if (scanned === 'date')
    return 'has no time of day; write it behind the date, such as 02:30, or name a column of dates and one of times of day as dateColumn and timeColumn of the mapping';
  if (scanned === null) return unknownMonth(written);
  const other = otherOrder(format);
  if (other !== null && !scanner.isNamed && !Number.isNaN(scanner.day(other))) {
    return `has no month ${Math.max(scanner.first, scanner.second)}: times of this file are read as ${TIME_FORMAT_WORDS[format]}; mend the row, or name the other order as timeFormat: ${other}`;
  }
  if (format !== 'iso') return null;
  return `is not written as most times of this file, year first; write it as ISO 8601, or name the format of the file as timeFormat: day-first or month-first`;
}

function otherOrder(format: TimeFormat): DateOrder | null {
  if (format === 'day-first') return 'month-first';
  return format === 'month-first' ? 'day-first' : null;
}

function unknownMonth(written: string): string | null {
  const word = /^\d{1,2}[-./ ]{1,2}(\p{L}{2,12})/u.exec(written)?.[1];
  if (word === undefined) return null;
  return `has "${word}" where its month should be; write the month as a number, or by its English name`;
}
