import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Unit } from '@/lib/contract/fleet-file';
import type { PlanCleaning } from '@/lib/contract/plan';
import { planRequestSchema } from '@/lib/contract/plan';
import { instantOfMoment } from '@/lib/time/local-moment';
import { acceptPlan } from '@/lib/work/accept-plan';
import { checkMove } from '@/lib/work/check-move';
import { movePlanned } from '@/lib/work/move-planned';
import { readPlanning } from '@/lib/work/read-planning';
import { showWorkList } from '@/lib/work/read-work-list';
import { registerFleet } from '@/lib/work/register-fleet';
import { saveCalendar } from '@/lib/work/save-calendar';
import { ANY_REQUEST, plannedCleaning, planResultOf } from '../support/plan-records';
import { plannedFleet, RECORD_END } from '../support/planned-fleet';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

const NOW = Date.parse('2026-05-04T08:00:00Z');
const DAY = 86_400_000;
const WHY = { reason: 'crew elsewhere', by: 'shift lead' };

let database: TemporaryDatabase;
beforeEach(async () => {
  database = await temporaryDatabase();
  database.context.now = () => NOW;
});
afterEach(() => database.remove());

const accept = (cleanings: PlanCleaning[], request = ANY_REQUEST) =>
  acceptPlan(database.context, { request, result: planResultOf(cleanings), by: 'planner', note: null });
const workOn = async (tag: string) =>
  (await showWorkList(database.context)).work.filter((piece) => piece.tag === tag);
const move = async (tag: string, from: string) =>
  movePlanned(database.context, (await workOn(tag))[0]!.id, { from, ...WHY });

const OUTAGE = { name: 'Summer', from: '2026-07-01T00:00:00Z', to: '2026-07-05T00:00:00Z', crewHours: 20 };
const fleet = async (cleaning: Unit['cleaning'], calendar: object = {}) => {
  await registerFleet(database.context, plainFleet(['E-1', 'E-2'], { cleaning }));
  await saveCalendar(database.context, {
    site: 'Test works',
    outages: [OUTAGE],
    crewHoursPerWeek: 24,
    notTogether: [],
    ...calendar,
  });
  await accept([
    plannedCleaning('E-1', '2026-07-01T06:00:00Z', { outage: 'Summer', cost: 900 }),
    plannedCleaning('E-2', '2026-06-09T06:00:00Z'),
  ]);
};

describe('moving planned work', () => {
  it('prices it anew: half a day out of service costs downtime outside outages and none within', async () => {
    await fleet({ cost: 900, downtimePerHour: 50 });
    expect(await move('E-1', '2026-05-20T06:00:00Z')).toEqual({
      tag: 'E-1',
      outage: null,
      cost: 900 + 12 * 50,
      breaks: [],
    });
    expect(await workOn('E-1')).toMatchObject([{ cost: 1500, saves: 9000, outage: null, revision: 1 }]);
    expect(await move('E-1', '2026-07-02T06:00:00Z')).toMatchObject({ outage: 'Summer', cost: 900 });
  });

  it('keeps what the plan took a cleaning to cost where nobody has stated that', async () => {
    await fleet({ downtimePerHour: 50 });
    expect(await move('E-1', '2026-05-20T06:00:00Z')).toMatchObject({ cost: 1500 });
    // 4,000 of the plan with its 600 of downtime; none in the outage.
    expect(await move('E-2', '2026-07-02T06:00:00Z')).toMatchObject({ cost: 3400 });
  });

  it('refuses a time outside outages for a unit that is cleaned in outages only', async () => {
    await fleet({ cost: 900, inOutageOnly: true });
    for (const from of ['2026-05-20T06:00:00Z', '2026-07-04T18:00:00Z']) {
      await expect(move('E-1', from)).rejects.toMatchObject({
        code: 'invalid-input',
        faults: [{ field: 'from', message: expect.stringContaining('outages only') }],
      });
    }
    expect(await workOn('E-1')).toMatchObject([{ revision: 0, cost: 900 }]);
    await move('E-1', '2026-07-03T06:00:00Z');
  });

  it('knows the outages of the accepted plan where the site has no calendar of its own', async () => {
    await registerFleet(
      database.context,
      plainFleet(['E-1'], { cleaning: { cost: 900, inOutageOnly: true } }),
    );
    const request = planRequestSchema.parse({ outages: [OUTAGE] });
    await accept([plannedCleaning('E-1', '2026-07-01T06:00:00Z', { outage: 'Summer' })], request);
    expect(await move('E-1', '2026-07-02T06:00:00Z')).toMatchObject({ outage: 'Summer', breaks: [] });
  });

  it('refuses what lies beyond the two years that plans reach', async () => {
    await fleet({ cost: 900 });
    const horizon = NOW + 104 * 7 * DAY;
    for (const from of ['9999-05-20T06:00:00Z', new Date(horizon - DAY / 4).toISOString()]) {
      await expect(move('E-1', from)).rejects.toMatchObject({ faults: [{ field: 'from' }] });
    }
    await move('E-1', new Date(horizon - DAY).toISOString());
  });

  it('says whose crew hours it overruns and what must not be out with it, and moves it all the same', async () => {
    await fleet({ cost: 900 }, { notTogether: [['E-1', 'E-2']] });
    // 16 h each in the week of Monday 8 June, where there are 24 h.
    expect((await move('E-1', '2026-06-09T12:00:00Z')).breaks).toEqual([
      'crew hours of the week of 8 Jun 2026: 32 h needed, 24 h there',
      'E-1 and E-2 must not be out together, and are on 9 Jun 2026',
    ]);
    expect((await workOn('E-1'))[0]!.from).toBe('2026-06-09T13:00:00+01:00');
    expect((await move('E-1', '2026-06-16T12:00:00Z')).breaks).toEqual([]);
    await move('E-2', '2026-07-01T06:00:00Z');
    expect((await move('E-1', '2026-07-02T06:00:00Z')).breaks).toEqual([
      'crew hours of Summer: 32 h needed, 20 h there',
    ]);
    expect((await move('E-1', '2026-07-04T18:00:00Z')).breaks).toEqual(['it reaches beyond Summer']);
  });

  it('says that there is no crew outside outages', async () => {
    await fleet({ cost: 900 }, { crewHoursPerWeek: null });
    expect((await move('E-1', '2026-06-16T12:00:00Z')).breaks).toEqual(['no crew cleans outside outages']);
  });

  it('says how long after the day it must be cleaned before it comes, before anything is stored', async () => {
    const { context } = database;
    const { site, tags } = await plannedFleet(context, { seed: 31, units: 4 });
    context.now = () => RECORD_END;
    const calendar = { site, outages: [], crewHoursPerWeek: 400, notTogether: [] };
    await saveCalendar(context, calendar);
    const { input, fleet: known } = await readPlanning(context, site);
    const unit = input!.units.find(({ deadline }) => deadline !== null && deadline > input!.from + 1)!;
    expect(tags).toContain(unit.tag);
    const { timeZone } = known.sites[0]!;
    const days = (count: number) => new Date(instantOfMoment(unit.deadline! + count, timeZone)).toISOString();
    await accept([plannedCleaning(unit.tag, '2026-06-02T08:00:00Z')]);
    const { id } = (await workOn(unit.tag))[0]!;
    const breaksAt = async (count: number) =>
      (await checkMove(context, id, { from: days(count) })).moved.breaks;
    expect(await breaksAt(20.5)).toEqual([
      'it comes 21 days after the day before which it must be cleaned, at 90 %',
    ]);
    expect(await breaksAt(-0.5)).toEqual([]);
    expect((await workOn(unit.tag))[0]!.revision).toBe(0);
  }, 120_000);
});
