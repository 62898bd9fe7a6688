import { localDay } from '@/lib/time/local-clock';
import { startOfLocalDay } from '@/lib/time/local-day';
import { formatDay, formatSpan } from '../format/time';
import { countOf } from '../format/words';
import type { ReviewedUnit, ReviewRecords } from './review-records';

/** Readings older than this are said to be [days]. */
const WORTH_SAYING_DAYS = 2;

/** What a review must own up to: an old "today", words worked out afterwards, another method, results not up to date. */
export function reviewNotices(records: ReviewRecords): string[] {
  return [
    ...nothingBetween(records),
    ...oldToday(records),
    ...endedSites(records),
    ...afterwards(records),
    ...otherMethod(records),
    ...notUpToDate(records),
  ];
}

function nothingBetween({ sinceDay, today }: ReviewRecords): string[] {
  if (today === null || sinceDay < today) return [];
  return [
    `The newest reading is of ${formatDay(today)}: nothing has changed since a day that is not before it. Choose an earlier one.`,
  ];
}

function oldToday({ today, clock, sites }: ReviewRecords): string[] {
  if (today === null) return [];
  const ageMs = clock - startOfLocalDay(today + 1, sites[0]?.timeZone ?? 'UTC');
  return ageMs > WORTH_SAYING_DAYS * 86_400_000
    ? [`The newest reading is of ${formatDay(today)}, ${formatSpan(ageMs)} ago: “now” is that day.`]
    : [];
}

function endedSites({ units, today }: ReviewRecords): string[] {
  const last = new Map(units.map(({ site, now }) => [site.name, now.day]));
  return [...last]
    .filter(([, day]) => today !== null && today - day > WORTH_SAYING_DAYS)
    .map(([site, day]) => `${site}: readings end on ${formatDay(day)}; its units are judged as of before.`);
}

function afterwards({ units, sinceDay }: ReviewRecords): string[] {
  const replayed = units.filter(({ before }) => before.isAfterwards);
  if (replayed.length === 0) return [];
  const whose = replayed.length === units.length ? '' : ` of ${countOf(replayed.length, 'unit')}`;
  return [
    `What was said${whose} on ${formatDay(sinceDay)} was not kept. It was worked out afterwards, ${workedOutOn(replayed)}, from the readings and cleanings up to that day as they are recorded now.`,
  ];
}

function workedOutOn(replayed: ReviewedUnit[]): string {
  const days = replayed.map(({ before, site }) => localDay(before.computedAt, site.timeZone));
  const [first, last] = [Math.min(...days), Math.max(...days)];
  return first === last ? `on ${formatDay(first)}` : `from ${formatDay(first)} to ${formatDay(last)}`;
}

function otherMethod({ units, sinceDay }: ReviewRecords): string[] {
  const other = units.filter(({ before, now }) => before.methodVersion !== now.methodVersion);
  if (other.length === 0) return [];
  return [
    `${countOf(other.length, 'unit')} ${other.length === 1 ? 'was' : 'were'} judged by another version of the method on ${formatDay(sinceDay)}: a figure can differ for that alone.`,
  ];
}

function notUpToDate({ due }: ReviewRecords): string[] {
  if (due === 0) return [];
  return [
    `${due === 1 ? 'One unit has' : `${due} units have`} changed since the last analysis: run cleanby analyse.`,
  ];
}
