import { formatNumber } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import { countOf } from '@/lib/report/format/words';
import type { PlannedRecord } from '@/lib/report/records';
import { localDay } from '@/lib/time/local-clock';
import { startOfLocalDay } from '@/lib/time/local-day';
import { localMoment } from '@/lib/time/local-moment';
import { liesIn, type MoveGiven, type OutageSpan, type Window } from './move-given';

/** An hour of work more than there is may be the rounding of a sum [h]. */
const LEAST_OVER = 1e-6;
const WEEK_DAYS = 7;
/** Day number of a Monday: 5 January 1970. */
const A_MONDAY = 4;

type Given = MoveGiven & { outages: readonly OutageSpan[]; around: OutageSpan | null };

/** What work breaks where it is moved to: crew hours, units that must not be out with it, the day it must be cleaned before. */
export function moveBreaks(work: PlannedRecord, window: Window, given: Given): string[] {
  const moved = { ...work, ...window };
  return [
    ...reachBreaks(moved, given),
    ...(given.around === null ? weekBreaks(moved, given) : outageBreaks(moved, given, given.around)),
    ...pairBreaks(moved, given),
    ...limitBreaks(moved, given, { isLater: window.from > work.from }),
  ];
}

function reachBreaks(moved: PlannedRecord, { outages, around }: Given): string[] {
  if (around !== null) return [];
  return outages.filter((outage) => overlap(moved, outage)).map(({ name }) => `it reaches beyond ${name}`);
}

function outageBreaks(moved: PlannedRecord, { others }: Given, outage: OutageSpan): string[] {
  const needed = [moved, ...others]
    .filter((piece) => liesIn(piece, outage))
    .reduce((sum, { crewHours }) => sum + crewHours, 0);
  return overrun(outage.name, needed, outage.crewHours ?? Number.POSITIVE_INFINITY);
}

/** The hours of a cleaning lie evenly over its time, as in a plan. */
function weekBreaks(moved: PlannedRecord, { others, outages, request, unit }: Given): string[] {
  const { name, timeZone } = unit.record.site;
  const crews = [request.online ?? []].flat();
  const crew = crews.find(({ site }) => site === name) ?? crews.find(({ site }) => site === undefined);
  if (crew === undefined) return ['no crew cleans outside outages'];
  const online = [moved, ...others].filter((piece) => !outages.some((outage) => liesIn(piece, outage)));
  const breaks: string[] = [];
  for (let monday = mondayOf(moved.from, timeZone); ; monday += WEEK_DAYS) {
    const week = {
      from: startOfLocalDay(monday, timeZone),
      to: startOfLocalDay(monday + WEEK_DAYS, timeZone),
    };
    if (week.from >= moved.to) return breaks;
    const needed = online.reduce((sum, piece) => sum + piece.crewHours * shareIn(piece, week), 0);
    breaks.push(...overrun(`the week of ${formatDay(monday)}`, needed, crew.crewHoursPerWeek));
  }
}

function overrun(where: string, needed: number, available: number): string[] {
  if (needed <= available + LEAST_OVER) return [];
  return [`crew hours of ${where}: ${hours(needed)} needed, ${hours(available)} there`];
}

function pairBreaks(moved: PlannedRecord, { others, request, unit }: Given): string[] {
  const apart = new Set(request.notTogether.filter((group) => group.includes(moved.tag)).flat());
  const { timeZone } = unit.record.site;
  return others
    .filter((piece) => (apart.has(piece.tag) || piece.tag === moved.tag) && overlap(piece, moved))
    .map(({ tag, from }) => {
      const day = formatDay(localDay(Math.max(from, moved.from), timeZone));
      return tag === moved.tag
        ? `${tag} is being cleaned already on ${day}`
        : `${moved.tag} and ${tag} must not be out together, and are on ${day}`;
    });
}

/** Moved later it may be late itself, moved earlier the unit's next cleaning. */
function limitBreaks(
  moved: PlannedRecord,
  { others, input, unit }: Given,
  { isLater }: { isLater: boolean },
): string[] {
  const planned = input?.units.find(({ tag }) => tag === moved.tag);
  if (planned === undefined) return [];
  const { timeZone } = unit.record.site;
  const pieces = [moved, ...others.filter(({ tag }) => tag === moved.tag)].sort(
    (one, other) => one.from - other.from,
  );
  const concerned = pieces.indexOf(moved) + (isLater ? 0 : 1);
  return pieces.flatMap(({ from }, index) => {
    if (index !== concerned) return [];
    const before = pieces[index - 1];
    const latest =
      before === undefined
        ? planned.deadline
        : planned.life === null
          ? null
          : localMoment(before.to, timeZone) + planned.life;
    const late = latest === null ? 0 : localMoment(from, timeZone) - latest;
    if (late <= 0) return [];
    const which = isLater ? 'it' : `the next cleaning of ${moved.tag}`;
    const confidence = `${formatNumber(input!.confidence * 100, 0)} %`;
    const days = countOf(Math.ceil(late), 'day');
    return [`${which} comes ${days} after the day before which it must be cleaned, at ${confidence}`];
  });
}

function mondayOf(instant: number, timeZone: string): number {
  const day = localDay(instant, timeZone);
  return day - ((day - A_MONDAY) % WEEK_DAYS);
}

function shareIn({ from, to }: Window, week: Window): number {
  if (to <= from) return from >= week.from && from < week.to ? 1 : 0;
  return Math.max(0, Math.min(to, week.to) - Math.max(from, week.from)) / (to - from);
}

function overlap(one: Window, other: Window): boolean {
  return one.from < other.to && other.from < one.to;
}

function hours(value: number): string {
  return `${formatNumber(value, 0)} h`;
}
