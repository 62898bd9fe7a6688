import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { type CalendarCleaning, calendarOf } from '@/lib/report/work-list/calendar';

// Read back by ical.js, a parser that has nothing to do with the writer; rules are those of RFC 5545.
const STAMP = Date.parse('2026-11-25T10:00:00Z');
const cleaning = (changes: Partial<CalendarCleaning> = {}): CalendarCleaning => ({
  tag: 'E-101',
  service: 'Feed preheat',
  site: 'Quay',
  start: Date.parse('2027-05-03T05:30:00Z'),
  end: Date.parse('2027-05-03T18:00:00Z'),
  outage: null,
  method: 'hot caustic wash',
  crewHours: 16,
  reason: 'limit',
  isolation: null,
  compatibility: null,
  calendarId: '7d1d4c1e-0000-4000-8000-000000000001@cleanby',
  revision: 0,
  standing: 'planned',
  ...changes,
});
const eventsOf = (text: string) =>
  new ICAL.Component(ICAL.parse(text))
    .getAllSubcomponents('vevent')
    .map((component) => new ICAL.Event(component));
const eventOf = (changes: Partial<CalendarCleaning> = {}) =>
  eventsOf(calendarOf([cleaning(changes)], { stamp: STAMP }))[0]!;
const stated = (event: ICAL.Event, name: string) => event.component.getFirstPropertyValue(name);

describe('the calendar of cleanings', () => {
  it('is read by an independent parser: identity, times, revision, status', () => {
    const event = eventOf({ revision: 3 });
    expect(event.uid).toBe('7d1d4c1e-0000-4000-8000-000000000001@cleanby');
    expect(event.sequence).toBe(3);
    expect(event.startDate.toJSDate()).toEqual(new Date('2027-05-03T05:30:00Z'));
    expect(event.endDate.toJSDate()).toEqual(new Date('2027-05-03T18:00:00Z'));
    expect(event.startDate.zone).toBe(ICAL.Timezone.utcTimezone);
    expect(stated(event, 'status')).toBe('CONFIRMED');
    expect(`${stated(event, 'dtstamp')}`).toBe('2026-11-25T10:00:00Z');
    expect([event.summary, event.location]).toEqual(['Clean E-101', 'Quay']);
    expect(event.attendees).toEqual([]);
    expect(event.component.hasProperty('organizer')).toBe(false);
  });

  it('has the properties that every calendar and event needs (RFC 5545 3.6)', () => {
    const calendar = new ICAL.Component(ICAL.parse(calendarOf([cleaning()], { stamp: STAMP })));
    expect(calendar.getFirstPropertyValue('version')).toBe('2.0');
    expect(calendar.hasProperty('prodid')).toBe(true);
    expect(eventsOf(calendarOf([], { stamp: STAMP }))).toEqual([]);
  });

  it('cancels what was called off, and only proposes what nobody has accepted', () => {
    const calledOff = eventOf({ standing: 'called-off', revision: 2 });
    expect(stated(calledOff, 'status')).toBe('CANCELLED');
    expect(calledOff.description).toMatch(/^Called off\./);
    const done = eventOf({ standing: 'done' });
    expect([done.summary, stated(done, 'status')]).toEqual(['Cleaned E-101', 'CONFIRMED']);
    const proposed = eventOf({ standing: 'proposed', calendarId: null });
    expect(stated(proposed, 'status')).toBe('TENTATIVE');
    expect(proposed.uid).toContain('E-101');
  });

  it('says method, reason, isolation, compatibility and what can kill', () => {
    const { description } = eventOf({ isolation: 'close V1; drain at D2', reason: 'over-limit' });
    expect(description).toContain('Method: hot caustic wash');
    expect(description).toContain('Reason: over its limit');
    expect(description).toContain('Isolation: close V1; drain at D2');
    expect(description).toContain('Compatibility: not stated');
    expect(description).toMatch(/can kill/);
    expect(description).toMatch(/[Ii]solate, depressurise, drain, cool/);
  });

  it('escapes commas, semicolons, backslashes and line ends, and lets no text become another property', () => {
    const tag = 'E-1, A;B\\C';
    const event = eventOf({ tag, method: 'wash\r\nSTATUS:CANCELLED\nEND:VEVENT', service: 'a\u0007b' });
    expect(event.summary).toBe(`Clean ${tag}`);
    expect(stated(event, 'status')).toBe('CONFIRMED');
    expect(event.description).toContain('Method: wash STATUS:CANCELLED END:VEVENT');
    expect(event.description).toContain('Service: a b');
  });

  it('folds lines at 75 octets, never within a character', () => {
    const method = 'Spülen mit Zitronensäure – 65 °C, 清洗 🧽 '.repeat(12).trim();
    const text = calendarOf([cleaning({ method })], { stamp: STAMP });
    const lines = text.split('\r\n');
    for (const line of lines) expect(Buffer.byteLength(line, 'utf8')).toBeLessThanOrEqual(75);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(text).not.toContain('\ufffd');
    expect(eventsOf(text)[0]!.description).toContain(method);
  });
});
