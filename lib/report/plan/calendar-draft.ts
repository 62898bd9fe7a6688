import type { Fault } from '@/lib/contract/app-error';
import type { Calendar } from '@/lib/contract/calendar';
import type { PlannedOutage, PlanRequest } from '@/lib/contract/plan';
import { isoDay } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import { isoInZone } from '@/lib/time/local-day';
import { localDateTime, localInstant } from '@/lib/time/local-instant';
import { outageInstants } from './plan-input';

/** A beginning or an end as the form holds it: a day, and the time of day where it is not midnight. */
export type OutageEdge = { day: string; time: string };

/** An outage as the form holds it; `kept` is what is stored, to the second, as long as it is not changed. */
export type OutageDraft = {
  key: string;
  name: string;
  from: OutageEdge;
  /** Without a time the day counts to its end. */
  to: OutageEdge;
  crewHours: string;
  kept: { from: string; to: string; shown: { from: OutageEdge; to: OutageEdge } } | null;
};

/** The calendar of a site as the form holds it. */
export type CalendarDraft = { outages: OutageDraft[]; crewHoursPerWeek: string; pairs: string[][] };

const DAY_LETTERS = 'YYYY-MM-DD'.length;
const MIDNIGHT = '00:00';

/** The stored calendar, out of the request it makes. */
export function readCalendar(request: PlanRequest, timeZone: string): CalendarDraft {
  const crew = [request.online ?? []].flat()[0]?.crewHoursPerWeek;
  return {
    outages: request.outages.map((outage, nth) => readOutage(outage, `stored ${nth}`, timeZone)),
    crewHoursPerWeek: crew === undefined ? '' : String(crew),
    pairs: request.notTogether,
  };
}

function readOutage(
  { name, from, to, crewHours }: PlannedOutage,
  key: string,
  timeZone: string,
): OutageDraft {
  const shown = { from: beginningOf(from, timeZone), to: endOf(to, timeZone) };
  return {
    key,
    name,
    ...shown,
    crewHours: crewHours === undefined ? '' : String(crewHours),
    kept: { from, to, shown },
  };
}

function beginningOf(text: string, timeZone: string): OutageEdge {
  if (text.length === DAY_LETTERS) return { day: text, time: '' };
  const [day, time] = localDateTime(Date.parse(text), timeZone).split('T') as [string, string];
  return { day, time: time === MIDNIGHT ? '' : time };
}

/** An outage that ends at midnight has the day before as its last. */
function endOf(text: string, timeZone: string): OutageEdge {
  const edge = beginningOf(text, timeZone);
  if (text.length === DAY_LETTERS || edge.time !== '') return edge;
  return { day: isoDay(localDay(Date.parse(text) - 1, timeZone)), time: '' };
}

/** The form as the request that keeps it; what cannot be read is refused by the contract. */
export function calendarOf(site: string, draft: CalendarDraft, timeZone: string): Calendar {
  return {
    site,
    outages: draft.outages.map(({ name, from, to, crewHours, kept }) => ({
      name,
      from: kept !== null && isSame(kept.shown.from, from) ? kept.from : edgeText(from, timeZone),
      to: kept !== null && isSame(kept.shown.to, to) ? kept.to : edgeText(to, timeZone),
      ...(crewHours.trim() === '' ? {} : { crewHours: Number(crewHours) }),
    })),
    crewHoursPerWeek: draft.crewHoursPerWeek.trim() === '' ? null : Number(draft.crewHoursPerWeek),
    notTogether: draft.pairs,
  };
}

function isSame(one: OutageEdge, other: OutageEdge): boolean {
  return one.day === other.day && one.time === other.time;
}

/** A day by itself, or an instant; a time that is none stays as it was written, to be refused. */
function edgeText({ day, time }: OutageEdge, timeZone: string): string {
  if (time === '') return day;
  const instant = localInstant(`${day}T${time}`, timeZone);
  return typeof instant === 'number' ? isoInZone(instant, timeZone) : `${day}T${time}`;
}

/** What is wrong with the outages of a form, by the names the server has for the same fields; empty: nothing. */
export function calendarFaults({ outages }: CalendarDraft, timeZone: string): Fault[] {
  return outages.flatMap(({ from, to, kept }, nth): Fault[] => {
    const faults = (['from', 'to'] as const).flatMap((name): Fault[] => {
      const edge = { from, to }[name];
      const isKept = kept !== null && isSame(kept.shown[name], edge);
      const message = isKept ? null : edgeFault(edge, timeZone);
      return message === null ? [] : [{ field: `outages[${nth}].${name}`, message }];
    });
    if (faults.length > 0) return faults;
    const span = calendarOf('', { outages: [outages[nth]!], crewHoursPerWeek: '', pairs: [] }, timeZone);
    const { from: begin, to: end } = outageInstants(span.outages[0]!, timeZone);
    return begin < end ? [] : [{ field: `outages[${nth}].to`, message: 'Must be after the outage begins' }];
  });
}

function edgeFault({ day, time }: OutageEdge, timeZone: string): string | null {
  if (day === '') return 'Say which day';
  if (time === '') return null;
  const instant = localInstant(`${day}T${time}`, timeZone);
  if (instant === 'no-time') return 'Write the time as hours and minutes, such as 06:00';
  if (instant === 'twice-or-never')
    return 'The clocks change on that day, and this time comes twice or not at all: take one before or after it';
  return null;
}

/** What is stored of the crew outside outages, in words. */
export function calendarInWords({ outages, crewHoursPerWeek, pairs }: CalendarDraft): string {
  const stops =
    outages.length === 0 ? 'no outage' : outages.length === 1 ? '1 outage' : `${outages.length} outages`;
  const crew =
    crewHoursPerWeek === ''
      ? 'no crew outside outages'
      : `${crewHoursPerWeek} crew hours a week outside outages`;
  const apart = pairs.length === 0 ? '' : `, ${pairs.length} kept apart`;
  return `${stops}, ${crew}${apart}`;
}
