import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PlanInput, PlanUnitInput } from '@/lib/core/plan/plan-input';
import { formatDay } from '@/lib/report/format/time';
import { clashingSpots } from '@/lib/report/plan/clashing-spots';
import { cleanBefore } from '@/lib/report/plan/clean-before';
import { crewLoad } from '@/lib/report/plan/crew-load';
import { bestPlace, nearestPlace, placesFor } from '@/lib/report/plan/draft-places';
import {
  addCleaning,
  draftFrom,
  isSameSchedule,
  lockedCleanings,
  moveCleaning,
  nextOption,
  spotsOf,
  takeOut,
  toggleLock,
} from '@/lib/report/plan/draft-plan';
import { priceDraft } from '@/lib/report/plan/draft-price';
import { needlessWaits } from '@/lib/report/plan/overdue-waits';
import { planCsv } from '@/lib/report/plan/plan-csv';
import { openDesk, optionAt, type PlanDesk, startInZone } from '@/lib/report/plan/plan-desk';
import { planTable } from '@/lib/report/plan/plan-table';
import { firstDay, rowLimits } from '@/lib/report/plan/row-limits';
import { dayNumber } from '@/lib/time/calendar-day';

/** A Monday; crews start at 08:00. */
const FROM = dayNumber('2026-11-30');
const WEEKS = 8;
const WORK_START = 8 / 24;
/** Money per joule at which 1 kW lost for a day costs 1. */
const RATE = 1 / (1000 * 86_400);

function unitOf(tag: string, change: Partial<PlanUnitInput> = {}): PlanUnitInput {
  return {
    tag,
    site: 'Quay',
    asOf: FROM - 1,
    ages: [0, 100],
    // 10 kW more each day: W at the ages above.
    lostDuty: [0, 1_000_000],
    pumping: [0, 0],
    lostDutyAfter: [0, 1_000_000],
    pumpingAfter: [0, 0],
    heatRates: [{ fromDay: 0, perJoule: RATE }],
    pumpingRates: [],
    deadline: FROM + 21,
    isOverdue: false,
    life: 60,
    cleaning: {
      cost: 500,
      durationDays: 1,
      crewHours: 30,
      method: 'hot wash',
      inOutageOnly: false,
      downtimePerDay: 100,
    },
    ...change,
  };
}

function deskOf(units: PlanUnitInput[], change: Partial<PlanInput> = {}): PlanDesk {
  return openDesk({
    timeZone: 'Europe/Lisbon',
    currency: 'EUR',
    input: {
      from: FROM,
      to: FROM + WEEKS * 7,
      confidence: 0.9,
      outages: [{ name: 'Winter stop', from: FROM + 15, to: FROM + 18, crewHours: 40, site: null }],
      crews: [{ site: null, hoursPerWeek: 40 }],
      notTogether: [],
      units,
      locked: [],
      ...change,
    },
  });
}

const empty = (desk: PlanDesk) => draftFrom(desk, []).draft;
/** The option of a unit that starts on a day. */
const onDay = (desk: PlanDesk, unit: number, day: number) =>
  desk.problem.units[unit]!.options.findIndex(({ start }) => Math.floor(start) === day);

describe('a draft of a plan', () => {
  it('is made of dated cleanings, and names back the same instants', () => {
    const desk = deskOf([unitOf('A'), unitOf('B')]);
    const option = onDay(desk, 1, FROM + 7);
    const start = startInZone(desk, { unit: 1, option });
    expect(start).toBe('2026-12-07T08:00:00+00:00');
    const { draft, lost } = draftFrom(desk, [{ tag: 'B', start, isLocked: true }]);
    expect(lost).toEqual([]);
    expect(spotsOf(draft)).toEqual([{ unit: 1, option }]);
    expect(draft.locked).toEqual([[], [option]]);
    expect(lockedCleanings(desk, draft)).toEqual([{ tag: 'B', start }]);
  });

  it('names the cleanings for which there is no place any more', () => {
    const desk = deskOf([unitOf('A')]);
    const { draft, lost } = draftFrom(desk, [
      { tag: 'A', start: '2026-12-09T08:00:00+00:00', isLocked: false },
      { tag: 'gone', start: '2026-12-07T08:00:00+00:00', isLocked: false },
    ]);
    expect(lost.map(({ tag }) => tag)).toEqual(['A', 'gone']);
    expect(spotsOf(draft)).toEqual([]);
  });

  it('finds a start again across the change of the clocks in the request', () => {
    // Lisbon, 28 Mar 2027: from +00:00 to +01:00; the Monday after starts at 08:00 summer time.
    const desk = deskOf([unitOf('A')], { to: dayNumber('2027-04-12') });
    const option = onDay(desk, 0, dayNumber('2027-03-29'));
    const start = startInZone(desk, { unit: 0, option });
    expect(start).toBe('2027-03-29T08:00:00+01:00');
    expect(spotsOf(draftFrom(desk, [{ tag: 'A', start, isLocked: false }]).draft)).toEqual([
      { unit: 0, option },
    ]);
  });

  it('keeps the lock of a cleaning that is moved, and forgets that of one taken out', () => {
    const desk = deskOf([unitOf('A')]);
    const [first, second] = [onDay(desk, 0, FROM), onDay(desk, 0, FROM + 7)];
    const added = addCleaning(empty(desk), { unit: 0, option: first });
    const locked = toggleLock(added, { unit: 0, option: first });
    const moved = moveCleaning(locked, { unit: 0, option: first }, second);
    expect([moved.schedule, moved.locked]).toEqual([[[second]], [[second]]]);
    expect(toggleLock(moved, { unit: 0, option: second }).locked).toEqual([[]]);
    expect(takeOut(moved, { unit: 0, option: second })).toEqual(empty(desk));
    expect(isSameSchedule(added, locked)).toBe(true);
    expect(isSameSchedule(added, moved)).toBe(false);
  });

  it('steps to the next place in time, over one it takes already, and no further than there are places', () => {
    const desk = deskOf([unitOf('A')]);
    const at = (day: number) => onDay(desk, 0, day);
    const draft = [at(FROM), at(FROM + 7)].reduce(
      (before, option) => addCleaning(before, { unit: 0, option }),
      empty(desk),
    );
    const step = (option: number, direction: -1 | 1) =>
      nextOption(desk, draft, { spot: { unit: 0, option }, step: direction });
    expect(step(at(FROM), -1)).toBeNull();
    const to = step(at(FROM), 1);
    // From the Monday before it a cleaning would reach into the stop: the stop itself is the next place.
    expect(optionAt(desk, { unit: 0, option: to! }).start).toBe(FROM + 15);
  });
});

describe('what a draft costs', () => {
  it('is cleaning, downtime and the expected loss, line by line', () => {
    // Grows by 10 a day per day from the day before the plan on; 56 days. Left as it is, day x of the plan loses 10 (x + 1):
    // the integral from 0 to 56 is 10 (56²/2 + 56) = 16,240.
    const desk = deskOf([unitOf('A')], { outages: [] });
    expect(priceDraft(desk, empty(desk)).cost).toEqual({
      cleaning: 0,
      downtime: 0,
      loss: expect.closeTo(16_240, 6),
      total: expect.closeTo(16_240, 6),
    });
    // Cleaned from day 21 1/3 for a day: 10 (21 1/3)²/2 + 10 · 21 1/3, nothing while it is out, then 10 · (33 2/3)²/2.
    const option = onDay(desk, 0, FROM + 21);
    const draft = addCleaning(empty(desk), { unit: 0, option });
    const start = 21 + WORK_START;
    const loss = 10 * (start ** 2 / 2 + start) + (10 * (56 - start - 1) ** 2) / 2;
    const price = priceDraft(desk, draft);
    expect(price.cost.cleaning).toBe(500);
    expect(price.cost.downtime).toBe(100);
    expect(price.cost.loss).toBeCloseTo(loss, 4);
    expect(price.cleanings[0]!.saves).toBeCloseTo(16_240 - loss, 4);
  });

  it('names who breaks what: crew, pair, limit', () => {
    const desk = deskOf([unitOf('A'), unitOf('B')], { notTogether: [['A', 'B']] });
    const late = onDay(desk, 0, FROM + 28);
    const draft = [0, 1].reduce((before, unit) => addCleaning(before, { unit, option: late }), empty(desk));
    const { clashes } = priceDraft(desk, draft);
    expect(clashes.map(({ kind, tags }) => [kind, tags])).toEqual([
      ['crew', ['A', 'B']],
      ['together', ['A', 'B']],
      ['limit', ['A']],
      ['limit', ['B']],
    ]);
    expect(clashes[0]!.words).toContain('60 h needed, 40 h there');
    expect(clashes[2]!.words).toBe('A goes 8 days beyond the day before which it must be cleaned, at 90 %');
  });

  it('says of a unit that is never cleaned how long it goes beyond its limit, and nothing of it where there is no place', () => {
    const desk = deskOf([unitOf('A')]);
    // To be cleaned before day 21 of 56.
    expect(priceDraft(desk, empty(desk)).clashes.map(({ words }) => words)).toEqual([
      'A goes 35 days beyond the day before which it must be cleaned, at 90 %',
    ]);
    const nowhere = deskOf([unitOf('A')], { outages: [], crews: [] });
    expect(priceDraft(nowhere, empty(nowhere)).clashes.map(({ kind, words }) => [kind, words])).toEqual([
      ['no-place', 'A must be cleaned and there is no outage it fits into and no crew outside outages'],
    ]);
    const locked = [{ tag: 'A', start: FROM + 80 }];
    const lost = deskOf([unitOf('A')], { locked });
    expect(priceDraft(lost, empty(lost)).clashes.map(({ words }) => words)).toEqual([
      'A has a locked cleaning for which there is no place where it is locked',
    ]);
  });

  it('is the same in the table, the earliest cleaning first', () => {
    const desk = deskOf([unitOf('B'), unitOf('A')]);
    const stop = onDay(desk, 0, FROM + 15);
    const week = onDay(desk, 1, FROM + 7);
    const draft = addCleaning(addCleaning(empty(desk), { unit: 0, option: stop }), { unit: 1, option: week });
    const rows = planTable(desk, toggleLock(draft, { unit: 1, option: week }), priceDraft(desk, draft));
    expect(rows.map(({ tag, where, cost }) => [tag, where, cost])).toEqual([
      ['A', 'outside outages', 600],
      ['B', 'Winter stop', 500],
    ]);
    expect(rows[0]).toMatchObject({ startWords: '7 Dec 2026, 08:00', isLocked: true, daysLate: 0 });
    expect(rows[0]!.cleanBefore).toBe('21 Dec 2026');
  });

  it('and the axis name a day that a cleaning in time starts before, and a late one does not', () => {
    // The limit falls on Monday 21 December at 15:00, and at 06:00, before the crew begins at 08:00.
    const wordsAt = (deadline: number) => {
      const desk = deskOf([unitOf('A', { deadline, life: null })], { outages: [] });
      const draft = addCleaning(empty(desk), { unit: 0, option: onDay(desk, 0, FROM + 21) });
      const [row] = planTable(desk, draft, priceDraft(desk, draft));
      const [limit] = rowLimits(desk, draft, 0);
      expect(formatDay(limit!.before!)).toBe(row!.cleanBefore);
      return [row!.startWords, row!.cleanBefore, row!.daysLate, limit!.words];
    };
    expect(wordsAt(FROM + 21 + 15 / 24)).toEqual([
      '21 Dec 2026, 08:00',
      '22 Dec 2026',
      0,
      'clean before 22 Dec 2026',
    ]);
    expect(wordsAt(FROM + 21 + 6 / 24)).toEqual([
      '21 Dec 2026, 08:00',
      '21 Dec 2026',
      1,
      'clean before 21 Dec 2026, and it is not',
    ]);
  });

  it('for every limit and start: to start before the day named is to be in time', () => {
    const moment = fc.integer({ min: 0, max: 4 * 24 }).map((hours) => FROM + hours / 24);
    fc.assert(
      fc.property(moment, moment, (deadline, start) => {
        expect(start < cleanBefore(deadline, start)).toBe(start <= deadline);
        expect(Math.abs(cleanBefore(deadline, start) - deadline)).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('tells a saving of nothing from that of a unit without a price', () => {
    const desk = deskOf([
      unitOf('A', { heatRates: [] }),
      unitOf('B', { lostDuty: [0, 0], lostDutyAfter: [0, 0] }),
    ]);
    const draft = [0, 1].reduce(
      (before, unit) => addCleaning(before, { unit, option: onDay(desk, unit, FROM + 7) }),
      empty(desk),
    );
    const rows = planTable(desk, draft, priceDraft(desk, draft));
    expect(rows.map(({ tag, saves }) => [tag, saves])).toEqual([
      ['A', null],
      ['B', 0],
    ]);
    expect(planCsv(rows, 'EUR').split('\r\n')[1]).toContain(',600,,');
  });
});

describe('a unit that is over its limit already', () => {
  const overdue = { deadline: FROM - 5, isOverdue: true, life: null };
  const cleanedOn = (desk: PlanDesk, days: number[]) =>
    days.reduce(
      (draft, day, unit) => addCleaning(draft, { unit, option: onDay(desk, unit, FROM + day) }),
      empty(desk),
    );
  const words = (desk: PlanDesk, days: number[]) =>
    priceDraft(desk, cleanedOn(desk, days)).clashes.map((clash) => clash.words);

  it('clashes where it would wait longer than in the plan it is compared with, else than at its earliest place', () => {
    const desk = deskOf([unitOf('A', overdue)]);
    expect(words(desk, [0])).toEqual([]);
    expect(words(desk, [21])).toEqual([
      'A is over its limit and would wait 21 days longer than at its earliest place',
    ]);
    const solved: PlanDesk = {
      ...desk,
      compared: { kind: 'solved', schedule: cleanedOn(desk, [7]).schedule },
    };
    expect(words(solved, [0])).toEqual([]);
    expect(words(solved, [7])).toEqual([]);
    expect(words(solved, [21])).toEqual([
      'A is over its limit and would wait 14 days longer than in the solved plan',
    ]);
    const places = placesFor(solved, cleanedOn(solved, [7]), { unit: 0, option: onDay(solved, 0, FROM + 7) });
    const refused = places.filter(({ why }) => why.length > 0).map(({ start }) => start);
    expect(refused).toEqual(places.map(({ start }) => start).filter((start) => start > FROM + 8));
  });

  it('clashes where it is not cleaned at all', () => {
    const desk = deskOf([unitOf('A', overdue)]);
    expect(priceDraft(desk, empty(desk)).clashes.map((clash) => clash.words)).toEqual([
      'A is over its limit and is not cleaned',
    ]);
    // Cleaned, but not again in time: 60 days of life do not fit before the end, 14 do.
    const again = deskOf([unitOf('A', { ...overdue, life: 14 })], { outages: [] });
    expect(words(again, [0])[0]).toMatch(/^A goes 41 days beyond the day before which it must be cleaned/);
  });

  it('is marked at its first cleaning where it waits, other units where they are late or clash', () => {
    const desk = deskOf([unitOf('A', overdue), unitOf('B'), unitOf('C')], { notTogether: [['B', 'C']] });
    const marked = (days: number[]) => {
      const draft = cleanedOn(desk, days);
      return clashingSpots(desk, draft, priceDraft(desk, draft)).map((options) => options.length);
    };
    expect(marked([0, 7, 15])).toEqual([0, 0, 0]);
    expect(marked([7, 0, 15])).toEqual([1, 0, 0]);
    expect(marked([0, 7, 28])).toEqual([0, 0, 1]);
    expect(marked([0, 7, 7])).toEqual([0, 1, 1]);
  });

  it('waits needlessly only where there is room for it earlier: 30 h of work each, 40 h a week', () => {
    const desk = deskOf([unitOf('A', overdue), unitOf('B', overdue)], { outages: [] });
    const { problem } = desk;
    expect(needlessWaits(problem, cleanedOn(desk, [0, 7]).schedule)).toEqual([]);
    expect(needlessWaits(problem, cleanedOn(desk, [0, 21]).schedule)).toEqual([
      {
        unit: 1,
        words:
          'B is over its limit and would wait 14 days longer than it must: there is room for it on 7 Dec 2026, 08:00',
      },
    ]);
  });
});

describe('the places of a cleaning', () => {
  it('say where it can be put, what that costs, and why not elsewhere', () => {
    const desk = deskOf([unitOf('A'), unitOf('B')]);
    const [mine, theirs] = [onDay(desk, 0, FROM), onDay(desk, 1, FROM + 7)];
    const draft = addCleaning(addCleaning(empty(desk), { unit: 0, option: mine }), {
      unit: 1,
      option: theirs,
    });
    const places = placesFor(desk, draft, { unit: 0, option: mine });
    expect(places).toHaveLength(desk.problem.units[0]!.options.length);
    const at = (day: number) => places.find(({ start }) => Math.floor(start) === day)!;
    expect(at(FROM).change).toBe(0);
    expect(at(FROM).why).toEqual([]);
    expect(at(FROM + 7).why).toHaveLength(1);
    expect(at(FROM + 7).why[0]).toContain('60 h needed, 40 h there');
    expect(at(FROM + 28).why[0]).toContain('8 days');
    const moved = moveCleaning(draft, { unit: 0, option: mine }, at(FROM + 15).option);
    expect(at(FROM + 15).change).toBeCloseTo(
      priceDraft(desk, moved).cost.total - priceDraft(desk, draft).cost.total,
      9,
    );
  });

  it('offer the cheapest that breaks nothing to a new cleaning, and none that overlaps another of the unit', () => {
    const desk = deskOf([unitOf('A')]);
    const best = bestPlace(placesFor(desk, empty(desk), { unit: 0, option: null }))!;
    expect(best.why).toEqual([]);
    const totals = desk.problem.units[0]!.options.map((_, option) =>
      priceDraft(desk, addCleaning(empty(desk), { unit: 0, option })),
    )
      .filter(({ clashes }) => clashes.length === 0)
      .map(({ cost }) => cost.total);
    expect(priceDraft(desk, addCleaning(empty(desk), { unit: 0, option: best.option })).cost.total).toBe(
      Math.min(...totals),
    );
    const long = unitOf('A', { cleaning: { ...unitOf('A').cleaning, durationDays: 10 } });
    const other = deskOf([long], { outages: [] });
    const taken = addCleaning(empty(other), { unit: 0, option: onDay(other, 0, FROM + 14) });
    const days = placesFor(other, taken, { unit: 0, option: null }).map(
      ({ start }) => Math.floor(start) - FROM,
    );
    expect(days).toEqual([0, 28, 35, 42]);
    expect(bestPlace([])).toBeNull();
    const near = nearestPlace(placesFor(other, taken, { unit: 0, option: null }), FROM + 33);
    expect(Math.floor(near!.start) - FROM).toBe(35);
    expect(nearestPlace([], FROM)).toBeNull();
  });
});

describe('limits and crew on the axis', () => {
  it('a row has a limit until its first cleaning and one after each, met or late', () => {
    const desk = deskOf([unitOf('A', { life: 14 })], { outages: [] });
    const states = (days: number[]) =>
      rowLimits(
        desk,
        days.reduce(
          (draft, day) => addCleaning(draft, { unit: 0, option: onDay(desk, 0, day) }),
          empty(desk),
        ),
        0,
      ).map(({ state, daysLate }) => [state, daysLate === null ? null : Math.round(daysLate * 100) / 100]);
    expect(states([])).toEqual([['late', null]]);
    expect(states([FROM + 28])).toEqual([
      ['late', 7.33],
      ['late', null],
    ]);
    expect(states([FROM + 14, FROM + 28, FROM + 42])).toEqual([
      ['met', null],
      ['met', null],
      ['met', null],
    ]);
    const overdue = deskOf([unitOf('A', { deadline: FROM - 5, isOverdue: true, life: null })]);
    expect(rowLimits(overdue, empty(overdue), 0).map(({ day, state }) => [day, state])).toEqual([
      [FROM, 'overdue'],
    ]);
  });

  it('rows are ordered by their first cleaning or limit', () => {
    const desk = deskOf([unitOf('A'), unitOf('B', { deadline: null })]);
    const draft = addCleaning(empty(desk), { unit: 0, option: onDay(desk, 0, FROM + 7) });
    expect(Math.floor(firstDay(desk, draft, 0))).toBe(FROM + 7);
    expect(firstDay(desk, empty(desk), 0)).toBe(FROM + 21);
    expect(firstDay(desk, draft, 1)).toBe(Number.POSITIVE_INFINITY);
  });

  it('crew hours are those the options take, and too many are said to be', () => {
    const desk = deskOf([unitOf('A'), unitOf('B')]);
    const span = { from: FROM, to: FROM + WEEKS * 7 };
    const draft = [0, 1].reduce(
      (before, unit) => addCleaning(before, { unit, option: onDay(desk, unit, FROM + 15) }),
      empty(desk),
    );
    const loads = crewLoad(desk, draft, span);
    const stop = loads.find(({ kind }) => kind === 'outage')!;
    expect(stop).toMatchObject({ name: 'Winter stop', used: 60, hours: 40, share: 1, isOver: true });
    expect(stop.words).toBe('60 of 40 h');
    expect(loads.filter(({ kind }) => kind === 'week').every(({ used }) => used === 0)).toBe(true);
    const beyond = deskOf([unitOf('A')], {
      outages: [
        { name: 'Last', from: FROM + 50, to: FROM + 70, crewHours: 40, site: null },
        { name: 'Next year', from: FROM + 300, to: FROM + 310, crewHours: 40, site: null },
      ],
    });
    const shown = crewLoad(beyond, empty(beyond), span);
    expect(shown.filter(({ kind }) => kind === 'outage').map(({ name, to }) => [name, to])).toEqual([
      ['Last', 1],
    ]);
    const open = deskOf([unitOf('A')], {
      outages: [{ name: 'Long stop', from: FROM + 15, to: FROM + 18, crewHours: null, site: null }],
    });
    const free = crewLoad(
      open,
      addCleaning(empty(open), { unit: 0, option: onDay(open, 0, FROM + 15) }),
      span,
    );
    expect(free[0]).toMatchObject({ hours: null, isOver: false, words: '30 h used, as many as needed' });
  });
});
