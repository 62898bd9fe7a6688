import ical, { ICalEventStatus } from 'ical-generator';
import type { CleaningReason } from '@/lib/contract/plan';
import { formatNumber } from '@/lib/report/format/figure';
import { CAUTION_HEAD, CAUTIONS } from '@/lib/report/plan/cautions';
import { REASON_WORDS } from './reason-words';

/** A cleaning as a calendar shows it. Instants in ms. */
export type CalendarCleaning = {
  tag: string;
  service: string | null;
  site: string;
  start: number;
  end: number;
  outage: string | null;
  method: string | null;
  crewHours: number;
  reason: CleaningReason;
  /** How this unit is isolated, and what its materials stand, as its datasheet says. */
  isolation: string | null;
  compatibility: string | null;
  /** Identity in every calendar it is sent to; one that is not accepted yet has none of its own. */
  calendarId: string | null;
  revision: number;
  standing: 'proposed' | 'planned' | 'done' | 'called-off';
};

const STATUS: Record<CalendarCleaning['standing'], ICalEventStatus> = {
  proposed: ICalEventStatus.TENTATIVE,
  planned: ICalEventStatus.CONFIRMED,
  done: ICalEventStatus.CONFIRMED,
  'called-off': ICalEventStatus.CANCELLED,
};

/**
 * The calendar of some cleanings (RFC 5545), instants in UTC. A cleaning keeps its UID through every revision, so that a
 * calendar that has it moves or cancels it.
 *
 * @param stamp when the calendar was made [ms]
 */
export function calendarOf(cleanings: readonly CalendarCleaning[], { stamp }: { stamp: number }): string {
  const calendar = ical({ prodId: { company: 'Cleanby', product: 'Cleaning plan', language: 'EN' } });
  for (const cleaning of cleanings) {
    const { tag, site, start, end, calendarId, revision, standing } = cleaning;
    calendar.createEvent({
      id: plain(calendarId ?? `${tag}-${start}@cleanby`),
      stamp: new Date(stamp),
      start: new Date(start),
      end: new Date(end),
      summary: plain(standing === 'done' ? `Cleaned ${tag}` : `Clean ${tag}`),
      location: plain(site),
      description: detailsOf(cleaning).map(plain).join('\n'),
      sequence: revision,
      status: STATUS[standing],
    });
  }
  return `${calendar.toString()}\r\n`;
}

function detailsOf(cleaning: CalendarCleaning): string[] {
  const { service, outage, method, crewHours, reason, isolation, compatibility, standing } = cleaning;
  return [
    ...(standing === 'called-off' ? ['Called off.'] : standing === 'done' ? ['Done.'] : []),
    ...(service === null || service === '' ? [] : [`Service: ${service}`]),
    `Where: ${outage === null ? 'outside outages' : `outage ${outage}`}`,
    `Method: ${method ?? 'not stated'}`,
    `Crew: ${formatNumber(crewHours, crewHours < 10 ? 1 : 0)} h of work`,
    `Reason: ${REASON_WORDS[reason]}`,
    `Isolation: ${isolation ?? 'not stated'}`,
    `Compatibility: ${compatibility ?? 'not stated'}`,
    [CAUTION_HEAD, ...CAUTIONS].join(' '),
  ];
}

/** Control characters have no place in calendar text (RFC 5545 3.3.11). */
function plain(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
  return text.replace(/[\u0000-\u001f\u007f]+/g, ' ');
}
