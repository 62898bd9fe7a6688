import type { TimeFormat } from '@/lib/contract/time-format';
import { epochOf, PLAIN_NUMBER } from './epoch-times';
import { type FoundTimes, namedTimes } from './found-times';
import { type DateOrder, TimeScanner } from './time-scanner';
import { stepsShow } from './time-steps';

/** Times at the beginning of a file that are looked at. */
const MAX_LOOKED = 5000;
const SHORT_YEARS = '; years of two digits are 1970 to 2069';
const POINT = 46;

/** What the times at the beginning of a file show. */
type Evidence = {
  yearFirst: number;
  named: number;
  /** Dates of numbers alone with the year at the end. */
  numbered: number;
  numbers: string[];
  /** A date that can have one order only, for each order. */
  proof: Record<DateOrder, string | null>;
  withPoints: number;
  hasShortYears: boolean;
  moments: string[];
};

/**
 * How the times of a file are written, from its beginning: never guessed row by row.
 *
 * - A mapping's word stands above all. Else what most times look like decides.
 * - Year first, or the month by name: read as written.
 * - Numbers alone: a first number above 12 proves that the day comes first, a second one that the month does. Points
 *   stand between day, month and year (common practice). Else times that follow each other at one distance in one order
 *   only show that order.
 * - Plain numbers are times since 1970 where both the column's name and their range say so.
 *
 * What shows nothing, or shows both, is not decided.
 */
export function findTimes(
  texts: readonly string[],
  { name, named }: { name: string; named: TimeFormat | undefined },
): FoundTimes {
  if (named !== undefined) return namedTimes(named);
  const evidence = gather(texts.slice(0, MAX_LOOKED));
  const { yearFirst, named: byName, numbered, numbers } = evidence;
  const most = Math.max(yearFirst, byName + numbered, numbers.length);
  if (most === 0 || yearFirst === most) return { format: 'iso', evidence: '' };
  if (numbers.length === most) return epochOf(name, numbers);
  const found = numbered === 0 ? byNames() : orderOf(evidence);
  return evidence.hasShortYears ? { ...found, evidence: found.evidence + SHORT_YEARS } : found;
}

function byNames(): FoundTimes {
  return { format: 'day-first', evidence: 'months are written by name' };
}

function gather(texts: readonly string[]): Evidence {
  const scanner = new TimeScanner();
  const found: Evidence = {
    yearFirst: 0,
    named: 0,
    numbered: 0,
    numbers: [],
    proof: { 'day-first': null, 'month-first': null },
    withPoints: 0,
    hasShortYears: false,
    moments: [],
  };
  for (const text of texts) {
    if (PLAIN_NUMBER.test(text)) found.numbers.push(text);
    else if (scanner.scan(text) !== null) take(found, scanner, text);
  }
  return found;
}

function take(found: Evidence, scanner: TimeScanner, text: string): void {
  const [dayFirst, monthFirst] = [isDay(scanner, 'day-first'), isDay(scanner, 'month-first')];
  if (!dayFirst && !monthFirst) return;
  if (scanner.isYearFirst) {
    found.yearFirst++;
    return;
  }
  found.hasShortYears ||= scanner.hasShortYear;
  if (scanner.isNamed) {
    found.named++;
    return;
  }
  found.numbered++;
  found.moments.push(text);
  if (scanner.separator === POINT) found.withPoints++;
  if (!monthFirst) found.proof['day-first'] ??= text;
  if (!dayFirst) found.proof['month-first'] ??= text;
}

function isDay(scanner: TimeScanner, order: DateOrder): boolean {
  return !Number.isNaN(scanner.day(order));
}

function orderOf({ proof, withPoints, numbered, moments }: Evidence): FoundTimes {
  const [dayFirst, monthFirst] = [proof['day-first'], proof['month-first']];
  if (dayFirst !== null && monthFirst !== null) {
    return { format: null, evidence: `"${dayFirst}" begins with the day, "${monthFirst}" with the month` };
  }
  if (dayFirst !== null)
    return { format: 'day-first', evidence: `"${dayFirst}" can only begin with the day` };
  if (monthFirst !== null) {
    return { format: 'month-first', evidence: `"${monthFirst}" can only begin with the month` };
  }
  if (withPoints === numbered) {
    return { format: 'day-first', evidence: 'points stand between day, month and year' };
  }
  const shown = stepsShow(moments);
  if (shown !== null) return { format: shown, evidence: 'only so do the times follow at one distance' };
  return { format: null, evidence: `"${moments[0]}" may begin with the day or with the month` };
}
