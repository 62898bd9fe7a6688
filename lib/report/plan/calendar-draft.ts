import type { Calendar } from '@/lib/contract/calendar';
import type { PlannedOutage, PlanRequest } from '@/lib/contract/plan';
import { isoDay } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';

/** An outage as the form holds it; `kept` is what is stored, to the minute, as long as its days are not changed. */
export type OutageDraft = {
  key: string;
  name: string;
  fromDay: string;
  toDay: string;
  crewHours: string;
  kept: { from: string; to: string; fromDay: string; toDay: string } | null;
};

/** The calendar of a site as the form holds it. */
export type CalendarDraft = { outages: OutageDraft[]; crewHoursPerWeek: string; pairs: string[][] };

const DAY_LETTERS = 'YYYY-MM-DD'.length;

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
  // An outage that ends at midnight has the day before as its last.
  const last = to.length === DAY_LETTERS ? to : isoDay(localDay(Date.parse(to) - 1, timeZone));
  const first = from.length === DAY_LETTERS ? from : isoDay(localDay(Date.parse(from), timeZone));
  return {
    key,
    name,
    fromDay: first,
    toDay: last,
    crewHours: crewHours === undefined ? '' : String(crewHours),
    kept: { from, to, fromDay: first, toDay: last },
  };
}

/** The form as the request that keeps it; what cannot be read is refused by the contract. */
export function calendarOf(site: string, draft: CalendarDraft): Calendar {
  return {
    site,
    outages: draft.outages.map(({ name, fromDay, toDay, crewHours, kept }) => ({
      name,
      from: kept !== null && kept.fromDay === fromDay ? kept.from : fromDay,
      to: kept !== null && kept.toDay === toDay ? kept.to : toDay,
      ...(crewHours.trim() === '' ? {} : { crewHours: Number(crewHours) }),
    })),
    crewHoursPerWeek: draft.crewHoursPerWeek.trim() === '' ? null : Number(draft.crewHoursPerWeek),
    notTogether: draft.pairs,
  };
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
