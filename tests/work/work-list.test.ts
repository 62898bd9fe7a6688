import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { PlanCleaning } from '@/lib/contract/plan';
import { workView } from '@/lib/report/work-list/work-view';
import { acceptPlan } from '@/lib/work/accept-plan';
import { callOffPlanned } from '@/lib/work/call-off-planned';
import { finishPlanned, linkPlanned } from '@/lib/work/finish-planned';
import { movePlanned } from '@/lib/work/move-planned';
import { showCleanings } from '@/lib/work/read-cleanings';
import { readFleet } from '@/lib/work/read-fleet';
import { readPlanning } from '@/lib/work/read-planning';
import { readWorkList, showWorkList } from '@/lib/work/read-work-list';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { registerFleet } from '@/lib/work/register-fleet';
import { saveCalendar } from '@/lib/work/save-calendar';
import { withdrawCleaning } from '@/lib/work/withdraw-cleaning';
import { ANY_REQUEST, plannedCleaning, planResultOf } from '../support/plan-records';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

const NOW = Date.parse('2026-05-04T08:00:00Z');
const DAY = 86_400_000;

let database: TemporaryDatabase;
beforeEach(async () => {
  database = await temporaryDatabase();
  database.context.now = () => NOW;
  await registerFleet(database.context, plainFleet(['E-1', 'E-2', 'E-3'], { cleaning: { cost: 900 } }));
});
afterEach(() => database.remove());

const accept = (cleanings: PlanCleaning[], request = ANY_REQUEST) =>
  acceptPlan(database.context, { request, result: planResultOf(cleanings), by: 'planner', note: null });
const work = async () => (await showWorkList(database.context)).work;
const workOn = async (tag: string) => (await work()).filter((piece) => piece.tag === tag);
const SHIFT = { by: 'shift lead' };

describe('accepting a plan', () => {
  it('makes dated work of its cleanings, with an identity for calendars', async () => {
    await accept([
      plannedCleaning('E-2', '2026-07-01T06:00:00Z', { outage: 'Summer' }),
      plannedCleaning('E-1', '2026-06-01T06:00:00Z'),
    ]);
    const [first, second] = await work();
    expect(first).toMatchObject({ tag: 'E-1', state: 'open', revision: 0, changes: [], cleaning: null });
    expect(Date.parse(first!.to) - Date.parse(first!.from)).toBe(DAY / 2);
    expect(second).toMatchObject({ tag: 'E-2', outage: 'Summer', from: '2026-07-01T07:00:00+01:00' });
    expect(first!.calendarId).not.toBe(second!.calendarId);
    const fleet = await readFleet(database.context);
    expect(fleet.planned.map(({ tag, unitId }) => [tag, unitId > 0])).toEqual([
      ['E-1', true],
      ['E-2', true],
    ]);
    expect(fleet.acceptedPlans).toMatchObject([
      { acceptedAt: NOW, acceptedBy: 'planner', request: ANY_REQUEST },
    ]);
  });

  it('takes the place of the plan before: moves, calls off, adds, and leaves what stays as it is', async () => {
    await accept([
      plannedCleaning('E-1', '2026-06-01T06:00:00Z'),
      plannedCleaning('E-2', '2026-07-01T06:00:00Z'),
      plannedCleaning('E-3', '2026-08-01T06:00:00Z'),
      plannedCleaning('E-3', '2026-12-01T06:00:00Z'),
    ]);
    const before = await work();
    await accept([
      plannedCleaning('E-1', '2026-06-01T06:00:00Z'),
      plannedCleaning('E-2', '2026-07-09T06:00:00Z'),
      plannedCleaning('E-3', '2026-12-01T06:00:00Z'),
      plannedCleaning('E-1', '2026-11-01T06:00:00Z'),
    ]);
    const idOf = (index: number) => before[index]!.calendarId;
    expect(await workOn('E-1')).toMatchObject([
      { calendarId: idOf(0), revision: 0, state: 'open', changes: [] },
      { revision: 0, state: 'open', from: '2026-11-01T06:00:00+00:00' },
    ]);
    expect(await workOn('E-2')).toMatchObject([
      {
        calendarId: idOf(1),
        revision: 1,
        state: 'open',
        from: '2026-07-09T07:00:00+01:00',
        changes: [{ kind: 'moved', by: 'planner', from: '2026-07-01T07:00:00+01:00' }],
      },
    ]);
    expect(await workOn('E-3')).toMatchObject([
      { calendarId: idOf(2), revision: 1, state: 'called-off', changes: [{ kind: 'called-off' }] },
      { calendarId: idOf(3), revision: 0, state: 'open' },
    ]);
  });

  it('moves each piece of a unit to the nearest of the new plan, so that an early cleaning is a new entry', async () => {
    await accept([
      plannedCleaning('E-1', '2026-08-01T06:00:00Z'),
      plannedCleaning('E-1', '2027-02-01T06:00:00Z'),
    ]);
    const before = await workOn('E-1');
    await accept([
      plannedCleaning('E-1', '2026-05-18T06:00:00Z'),
      plannedCleaning('E-1', '2026-08-08T06:00:00Z'),
      plannedCleaning('E-1', '2027-02-08T06:00:00Z'),
    ]);
    const after = await workOn('E-1');
    const known = before.map(({ calendarId }) => calendarId);
    expect(after.map(({ calendarId }) => known.indexOf(calendarId))).toEqual([-1, 0, 1]);
    expect(after.map(({ revision }) => revision)).toEqual([0, 1, 1]);
    await accept([plannedCleaning('E-1', '2027-02-03T06:00:00Z')]);
    expect((await workOn('E-1')).map(({ calendarId, state }) => [known.indexOf(calendarId), state])).toEqual([
      [-1, 'called-off'],
      [0, 'called-off'],
      [1, 'open'],
    ]);
  });

  it('leaves done work alone, and the work of other sites where it is of one site', async () => {
    const { context } = database;
    const hill = plainFleet(['H-1']);
    await registerFleet(context, { ...hill, site: { ...hill.site, name: 'Hill works' } });
    await accept([
      plannedCleaning('E-1', '2026-05-10T06:00:00Z'),
      plannedCleaning('H-1', '2026-06-01T06:00:00Z'),
    ]);
    context.now = () => Date.parse('2026-05-12T00:00:00Z');
    const [own] = await workOn('E-1');
    await finishPlanned(context, own!.id, { at: '2026-05-10T20:00:00Z', ...SHIFT });
    await accept([plannedCleaning('E-2', '2026-06-02T06:00:00Z')], { ...ANY_REQUEST, site: 'Test works' });
    expect((await work()).map(({ tag, state }) => [tag, state])).toEqual([
      ['E-1', 'done'],
      ['H-1', 'open'],
      ['E-2', 'open'],
    ]);
  });

  it('leaves open work of a unit alone that the new plan was made without', async () => {
    await accept([
      plannedCleaning('E-1', '2026-06-01T06:00:00Z'),
      plannedCleaning('E-2', '2026-07-01T06:00:00Z'),
    ]);
    const leftOut = [{ tag: 'E-2', reason: 'it has no usable readings of late' }];
    const result = planResultOf([plannedCleaning('E-3', '2026-06-02T06:00:00Z')], { leftOut });
    await acceptPlan(database.context, { request: ANY_REQUEST, result, by: 'planner', note: null });
    expect((await work()).map(({ tag, state, revision }) => [tag, state, revision])).toEqual([
      ['E-1', 'called-off', 1],
      ['E-3', 'open', 0],
      ['E-2', 'open', 0],
    ]);
  });

  it('keeps the plan of each site beside those of the others, until one for all takes their place', async () => {
    const { context } = database;
    const hill = plainFleet(['H-1']);
    const site = { ...hill.site, name: 'Hill works', timeZone: 'Europe/Berlin' };
    await registerFleet(context, { ...hill, site });
    const cleaning = plannedCleaning('E-1', '2026-06-01T06:00:00Z');
    const at = (name: string) => ({ ...ANY_REQUEST, site: name });
    const sitesInForce = async () => (await showWorkList(context)).plans.map((plan) => [plan.id, plan.site]);
    await accept([cleaning], at('Test works'));
    await accept([plannedCleaning('H-1', '2026-06-01T06:00:00Z')], at('Hill works'));
    expect(await sitesInForce()).toEqual([
      [2, 'Hill works'],
      [1, 'Test works'],
    ]);
    // Each in its own zone: Lisbon's summer time is UTC + 1 h, Berlin's UTC + 2 h.
    const view = workView(await readWorkList(context), { by: 'date', units: null }, 'si');
    expect(view.plans).toEqual([
      'Plan 2 of Hill works, accepted 4 May 2026, 10:00 (Europe/Berlin) by planner',
      'Plan 1 of Test works, accepted 4 May 2026, 09:00 (Europe/Lisbon) by planner',
    ]);
    expect(view.open[0]!.rows.map(({ tag, about }) => [tag, about])).toEqual([
      ['E-1', expect.stringContaining('Test works')],
      ['H-1', expect.stringContaining('Hill works')],
    ]);
    expect((await readPlanning(context, 'Test works')).accepted?.id).toBe(1);
    expect((await readPlanning(context, 'Hill works')).accepted?.id).toBe(2);
    await accept([cleaning]);
    await accept([cleaning], at('Test works'));
    expect(await sitesInForce()).toEqual([
      [4, 'Test works'],
      [3, null],
    ]);
    expect((await readPlanning(context, 'Hill works')).accepted?.id).toBe(3);
  });

  it('refuses units that are not registered and work in the past, and then changes nothing', async () => {
    await accept([plannedCleaning('E-1', '2026-06-01T06:00:00Z')]);
    await expect(accept([plannedCleaning('E-9', '2026-06-01T06:00:00Z')])).rejects.toMatchObject({
      code: 'invalid-input',
      message: expect.stringContaining('E-9'),
    });
    await expect(accept([plannedCleaning('E-1', '2026-05-03T06:00:00Z')])).rejects.toMatchObject({
      code: 'invalid-input',
      message: expect.stringContaining('past'),
    });
    expect(await work()).toMatchObject([{ tag: 'E-1', state: 'open', revision: 0 }]);
  });
});

describe('what a cleaning saves', () => {
  it('is not known where the unit has no price, unlike a saving of nothing', async () => {
    const { context } = database;
    const priced = plainFleet(['P-1'], {
      cleaning: { cost: 900 },
      energy: { effect: 'heating', price: { amount: 50, per: 'MW.h' } },
    });
    await registerFleet(context, priced);
    await accept([
      plannedCleaning('E-1', '2026-06-01T06:00:00Z', { saves: 0 }),
      plannedCleaning('P-1', '2026-06-02T06:00:00Z', { saves: 0 }),
    ]);
    expect((await work()).map(({ tag, saves }) => [tag, saves])).toEqual([
      ['E-1', null],
      ['P-1', 0],
    ]);
    const view = workView(await readWorkList(context), { by: 'date', units: null }, 'si');
    expect(view.open[0]!.rows.map(({ saves }) => saves)).toEqual(['– no price', '0.00\u00a0€']);
  });
});

describe('a piece of work', () => {
  let id: number;
  beforeEach(async () => {
    await accept([plannedCleaning('E-1', '2026-05-20T06:00:00Z', { outage: 'Spring' })]);
    id = (await work())[0]!.id;
  });

  it('moves with its reason kept, takes as long as before, and knows the outage it then lies in', async () => {
    const { context } = database;
    await saveCalendar(context, {
      site: 'Test works',
      outages: [{ name: 'Summer', from: '2026-07-01T00:00:00Z', to: '2026-07-05T00:00:00Z' }],
      crewHoursPerWeek: null,
      notTogether: [],
    });
    await movePlanned(context, id, { from: '2026-06-10T06:00:00Z', reason: 'crew elsewhere', ...SHIFT });
    expect(await work()).toMatchObject([{ outage: null, to: '2026-06-10T19:00:00+01:00', revision: 1 }]);
    await movePlanned(context, id, { from: '2026-07-02T06:00:00Z', reason: 'outage after all', ...SHIFT });
    expect(await work()).toMatchObject([
      {
        outage: 'Summer',
        revision: 2,
        changes: [
          { kind: 'moved', by: 'shift lead', reason: 'crew elsewhere', from: '2026-05-20T07:00:00+01:00' },
          { kind: 'moved', reason: 'outage after all', from: '2026-06-10T07:00:00+01:00' },
        ],
      },
    ]);
    const past = movePlanned(context, id, { from: '2026-05-01T06:00:00Z', reason: 'r', ...SHIFT });
    await expect(past).rejects.toMatchObject({ faults: [{ field: 'from' }] });
    const same = movePlanned(context, id, { from: '2026-07-02T06:00:00Z', reason: 'r', ...SHIFT });
    await expect(same).rejects.toMatchObject({ faults: [{ field: 'from' }] });
  });

  it('is called off once, and kept', async () => {
    const { context } = database;
    await callOffPlanned(context, id, { reason: 'unit replaced', ...SHIFT });
    expect(await work()).toMatchObject([
      { state: 'called-off', revision: 1, note: 'unit replaced', changedBy: 'shift lead' },
    ]);
    const again = callOffPlanned(context, id, { reason: 'again', ...SHIFT });
    await expect(again).rejects.toMatchObject({ code: 'conflict' });
    const unknown = callOffPlanned(context, 999, { reason: 'r', ...SHIFT });
    await expect(unknown).rejects.toMatchObject({ code: 'not-found' });
  });

  it('is overdue once its end has passed and nobody marked it done', async () => {
    const { context } = database;
    expect((await work())[0]!.isOverdue).toBe(false);
    context.now = () => Date.parse('2026-05-20T18:00:01Z');
    expect((await work())[0]!.isOverdue).toBe(true);
  });

  it('marked done records the cleaning with it; withdrawing that opens the work again', async () => {
    const { context } = database;
    const { series } = context.store;
    const done = {
      at: '2026-05-20T19:00:00Z',
      method: null,
      cost: null,
      duration: { value: 13, unit: 'h' },
      note: 'plates 3 to 9 scaled',
      ...SHIFT,
    };
    await expect(finishPlanned(context, id, done)).rejects.toMatchObject({ faults: [{ field: 'at' }] });
    context.now = () => Date.parse('2026-05-21T00:00:00Z');
    const { cleaning } = await finishPlanned(context, id, done);
    expect(await work()).toMatchObject([
      { state: 'done', cleaning, revision: 1, changes: [{ kind: 'done', by: 'shift lead' }] },
    ]);
    expect((await showCleanings(context, 'E-1')).cleanings).toEqual([
      {
        id: cleaning,
        at: '2026-05-20T20:00:00+01:00',
        method: 'hot caustic wash',
        cost: 900,
        duration: 13 * 3600,
        note: 'plates 3 to 9 scaled',
        revision: 0,
      },
    ]);
    expect((await series.due()).size).toBeGreaterThan(0);
    await expect(finishPlanned(context, id, done)).rejects.toMatchObject({ code: 'conflict' });

    await withdrawCleaning(context, 'E-1', { id: cleaning, by: 'engineer', note: 'wrong unit' });
    expect(await work()).toMatchObject([
      {
        state: 'open',
        cleaning: null,
        revision: 2,
        changes: [{ kind: 'done' }, { kind: 'opened-again', by: 'engineer', reason: 'wrong unit' }],
      },
    ]);
  });

  it('may have been a cleaning recorded elsewhere within 14 days: offered, linked by a person', async () => {
    const { context } = database;
    const end = Date.parse('2026-05-20T18:00:00Z');
    context.now = () => end + 60 * DAY;
    for (const days of [-16, 13.9, 14.1]) await recordCleaning(context, { tag: 'E-1', at: end + days * DAY });
    await recordCleaning(context, { tag: 'E-2', at: end });
    expect((await work())[0]!.state).toBe('open');
    const view = workView(await readWorkList(context), { by: 'date', units: null }, 'si');
    const offers = view.open[0]!.rows[0]!.offers;
    expect(offers.map(({ words }) => words)).toEqual(['cleaned 3 Jun 2026, 16:36']);

    const [offer] = offers;
    await expect(linkPlanned(context, id, { cleaning: 999, ...SHIFT })).rejects.toMatchObject({
      code: 'not-found',
    });
    await linkPlanned(context, id, { cleaning: offer!.cleaning, ...SHIFT });
    expect(await work()).toMatchObject([{ state: 'done', cleaning: offer!.cleaning }]);
    expect((await showCleanings(context, 'E-1')).cleanings).toHaveLength(3);
  });
});
