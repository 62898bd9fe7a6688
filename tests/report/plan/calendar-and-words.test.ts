import { describe, expect, it } from 'vitest';
import { calendarSchema } from '@/lib/contract/calendar';
import { type PlanResult, planRequestSchema } from '@/lib/contract/plan';
import {
  type CalendarDraft,
  calendarFaults,
  calendarInWords,
  calendarOf,
  type OutageDraft,
  readCalendar,
} from '@/lib/report/plan/calendar-draft';
import { compareRules } from '@/lib/report/plan/compare-rules';
import { planSettings, readPlanAddress, writePlanAddress } from '@/lib/report/plan/plan-address';
import { changeInWords, durationInWords, momentInWords, solvedInWords } from '@/lib/report/plan/plan-words';
import { dayNumber } from '@/lib/time/calendar-day';

const LISBON = 'Europe/Lisbon';

describe('the calendar as a form', () => {
  const request = planRequestSchema.parse({
    outages: [
      {
        name: 'Winter stop',
        from: '2027-01-11T00:00:00+00:00',
        to: '2027-01-16T00:00:00+00:00',
        crewHours: 96,
      },
      { name: 'Inspection', from: '2027-06-18T06:00:00+01:00', to: '2027-06-20T14:00:00+01:00' },
    ],
    online: { crewHoursPerWeek: 24 },
    notTogether: [['A', 'B']],
  });

  it('shows an outage by its first and last day, the last one included, with a time where it is not midnight', () => {
    const { outages, crewHoursPerWeek, pairs } = readCalendar(request, LISBON);
    expect(outages.map(({ name, from, to, crewHours }) => [name, from, to, crewHours])).toEqual([
      ['Winter stop', { day: '2027-01-11', time: '' }, { day: '2027-01-15', time: '' }, '96'],
      ['Inspection', { day: '2027-06-18', time: '06:00' }, { day: '2027-06-20', time: '14:00' }, ''],
    ]);
    expect(crewHoursPerWeek).toBe('24');
    expect(pairs).toEqual([['A', 'B']]);
  });

  const outageOf = (change: Partial<OutageDraft>): CalendarDraft => {
    const draft = readCalendar(request, LISBON);
    return { ...draft, outages: [{ ...draft.outages[1]!, ...change }] };
  };
  const sent = (change: Partial<OutageDraft>) =>
    calendarOf('Quay', outageOf(change), LISBON).outages.map(({ from, to }) => [from, to])[0];

  it('sends back what is stored where nothing was changed, else the day, or the instant of a time by the site’s clock', () => {
    const draft = readCalendar(request, LISBON);
    expect(calendarOf('Quay', draft, LISBON).outages.map(({ from, to }) => [from, to])).toEqual(
      request.outages.map(({ from, to }) => [from, to]),
    );
    const begin = '2027-06-18T06:00:00+01:00';
    expect(sent({ to: { day: '2027-06-22', time: '' } })).toEqual([begin, '2027-06-22']);
    expect(sent({ to: { day: '2027-06-22', time: '18:30' } })).toEqual([begin, '2027-06-22T18:30:00+01:00']);
    expect(sent({ from: { day: '2027-01-18', time: '07:00' } })![0]).toBe('2027-01-18T07:00:00+00:00');
    const moved = calendarOf('Quay', outageOf({ to: { day: '2027-06-22', time: '18:30' } }), LISBON);
    expect(calendarSchema.safeParse(moved).success).toBe(true);
  });

  it('refuses at the field a time that the clocks skip or repeat, and an end that is not after the beginning', () => {
    const faults = (change: Partial<OutageDraft>) =>
      calendarFaults(outageOf(change), LISBON).map(({ field, message }) => [field, message.slice(0, 17)]);
    expect(faults({})).toEqual([]);
    // Lisbon: 01:00 to 02:00 is skipped on 28 Mar 2027, and comes twice on 31 Oct 2027 (tz database).
    expect(faults({ from: { day: '2027-03-28', time: '01:30' } })).toEqual([
      ['outages[0].from', 'The clocks change'],
    ]);
    expect(faults({ to: { day: '2027-10-31', time: '01:30' } })).toEqual([
      ['outages[0].to', 'The clocks change'],
    ]);
    expect(faults({ to: { day: '2027-06-18', time: '06:00' } })).toEqual([
      ['outages[0].to', 'Must be after the'],
    ]);
    expect(faults({ to: { day: '2027-06-18', time: '06:01' } })).toEqual([]);
    expect(faults({ to: { day: '2027-06-18', time: '' } })).toEqual([]);
    expect(faults({ from: { day: '', time: '06:00' } })).toEqual([['outages[0].from', 'Say which day']]);
    // What is stored already is an instant: it stands although the form cannot tell it from its twin.
    const stored = planRequestSchema.parse({
      outages: [{ name: 'Autumn', from: '2027-10-31T01:30:00+00:00', to: '2027-11-02T00:00:00+00:00' }],
    });
    const autumn = readCalendar(stored, LISBON);
    expect(calendarFaults(autumn, LISBON)).toEqual([]);
    expect(calendarOf('Quay', autumn, LISBON).outages[0]!.from).toBe('2027-10-31T01:30:00+00:00');
  });

  it('has no crew where the hours are empty, and is refused by the contract where a day is missing', () => {
    const draft = { ...readCalendar(request, LISBON), crewHoursPerWeek: ' ' };
    expect(calendarOf('Quay', draft, LISBON).crewHoursPerWeek).toBeNull();
    const torn = {
      ...draft,
      outages: [{ ...draft.outages[0]!, from: { day: '', time: '' }, kept: null }],
    };
    expect(calendarSchema.safeParse(calendarOf('Quay', torn, LISBON)).success).toBe(false);
    expect(calendarInWords(readCalendar(request, LISBON))).toBe(
      '2 outages, 24 crew hours a week outside outages, 1 kept apart',
    );
    expect(calendarInWords({ outages: [], crewHoursPerWeek: '', pairs: [] })).toBe(
      'no outage, no crew outside outages',
    );
  });
});

describe('the address of the plan', () => {
  it('is read and written, defaults left out and other parameters kept', () => {
    const address = readPlanAddress({ site: 'Quay', weeks: '26', confidence: '0.8', view: 'table' });
    expect(address).toEqual({ site: 'Quay', weeks: 26, confidence: 0.8, view: 'table' });
    expect(readPlanAddress({ weeks: '27', confidence: 'sure', view: 'wall' })).toEqual({
      site: null,
      weeks: null,
      confidence: null,
      view: 'axis',
    });
    expect(`${writePlanAddress(address, new URLSearchParams('units=us'))}`).toBe(
      'units=us&site=Quay&weeks=26&confidence=0.8&view=table',
    );
    expect(
      `${writePlanAddress({ view: 'axis', site: null }, new URLSearchParams('site=Quay&view=table'))}`,
    ).toBe('');
  });

  it('settles for the accepted plan, then for what is usual', () => {
    const accepted = { weeks: 78, confidence: 0.95 };
    expect(planSettings({ weeks: 26, confidence: null }, accepted)).toEqual({ weeks: 26, confidence: 0.95 });
    expect(planSettings({ weeks: null, confidence: null }, null)).toEqual({ weeks: 52, confidence: 0.9 });
  });
});

describe('the plan in words', () => {
  it('moments, durations and changes read as people write them', () => {
    const day = dayNumber('2027-01-04');
    expect(momentInWords(day)).toBe('4 Jan 2027');
    expect(momentInWords(day + 8 / 24)).toBe('4 Jan 2027, 08:00');
    expect(momentInWords(day + 1 - 1e-7)).toBe('5 Jan 2027');
    expect(durationInWords(0.5)).toBe('12 h');
    expect(durationInWords(2.5)).toBe('2.5 days');
    expect(changeInWords(1240.4, 'EUR')).toBe('+1,240\u00a0€');
    expect(changeInWords(-320, 'EUR')).toBe('−320\u00a0€');
    expect(changeInWords(0.2, 'EUR')).toBe('no change');
  });

  const result: PlanResult = {
    status: 'within-gap',
    gap: 0.00291,
    asOf: '2026-11-25T08:00:00+00:00',
    from: '2026-11-26',
    to: '2027-11-25',
    confidence: 0.9,
    currency: 'EUR',
    cost: { cleaning: 600, downtime: 100, loss: 300, total: 1000 },
    bound: 997,
    cleanings: [],
    compared: {
      allAtNextOutage: {
        total: 1500,
        cost: { cleaning: 900, downtime: 0, loss: 600 },
        cleanings: 3,
        broken: [],
      },
      fixedInterval: { total: null, cost: null, cleanings: 0, broken: ['crew hours'], days: 90 },
      noCleaning: { total: 2000, beyondLimit: 3 },
    },
    clashes: [],
    leftOut: [],
    seconds: 2.13,
    isTimeUp: false,
  };

  it('say how far from the least cost a plan may be, rounded up, and whether the time was up', () => {
    expect(solvedInWords(result)).toBe('At most 0.3 % above the least possible cost; solved in 2.1 s.');
    expect(solvedInWords({ ...result, gap: 0.00006 })).toContain('At most 0.01 %');
    expect(solvedInWords({ ...result, gap: 0.00002 })).toBe(
      'No plan that keeps every constraint costs less; solved in 2.1 s.',
    );
    expect(solvedInWords({ ...result, gap: 0 })).toContain('costs less');
    expect(solvedInWords({ ...result, isTimeUp: true, seconds: 10.04 })).toContain(
      'stopped at its time limit after 10.0 s',
    );
    expect(solvedInWords({ ...result, status: 'optimal' })).toContain('costs less');
    expect(solvedInWords({ ...result, status: 'infeasible' })).toContain('breaks least');
    expect(solvedInWords({ ...result, status: 'infeasible', isTimeUp: true })).toContain(
      'was found in the time',
    );
  });

  it('compare the plan with the plain rules on one scale', () => {
    const price = { cost: { cleaning: 0, downtime: 0, loss: 1200, total: 1200 }, clashes: [], cleanings: [] };
    const rules = compareRules(result, { price, isChanged: true });
    expect(rules.map(({ key, more, share }) => [key, more, share])).toEqual([
      ['draft', 200, 0.6],
      ['solved', null, 0.5],
      ['next-outage', 500, 0.75],
      ['interval', null, 0],
      ['none', 1000, 1],
    ]);
    expect(rules[3]).toMatchObject({ name: 'A fixed interval of 90 days', broken: ['crew hours'] });
    expect(compareRules(result, { price, isChanged: false })).toHaveLength(4);
    expect(rules.map(({ does }) => does !== null)).toEqual([false, false, true, true, true]);
    expect(rules[3]!.does).toContain('every unit every 90 days at the next place with room');
  });

  it('say how many units go beyond their limits where nothing is cleaned, and that none does', () => {
    const price = { cost: { cleaning: 0, downtime: 0, loss: 1200, total: 1200 }, clashes: [], cleanings: [] };
    const broken = (beyondLimit: number) => {
      const compared = { ...result.compared, noCleaning: { total: 2000, beyondLimit } };
      return compareRules({ ...result, compared }, { price, isChanged: false }).at(-1)!.broken;
    };
    expect([0, 1, 3].map(broken)).toEqual([
      [],
      ['1 unit goes beyond its limit'],
      ['3 units go beyond their limits'],
    ]);
  });
});
