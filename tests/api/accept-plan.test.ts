import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as accept from '@/app/api/v1/plan/accept/route';
import * as plan from '@/app/api/v1/plan/route';
import { type PlanResult, planResultSchema } from '@/lib/contract/plan';
import { workListSchema } from '@/lib/contract/planned';
import type { UnitRecord } from '@/lib/report/records';
import { listUnits } from '@/lib/store/entities/units';
import { analyse } from '@/lib/work/analyse';
import { registerFleet } from '@/lib/work/register-fleet';
import { answerOf, apiDatabase, postJson } from '../support/api';
import { plannedFleet } from '../support/planned-fleet';
import type { TemporaryDatabase } from '../support/temporary-database';

let database: TemporaryDatabase;
let request: Record<string, unknown>;
let made: PlanResult;
beforeAll(async () => {
  database = await apiDatabase();
  const { site } = await plannedFleet(database.context, { seed: 31, units: 2 });
  request = { site, online: { crewHoursPerWeek: 40 }, confidence: 0.5, weeks: 26 };
  made = planResultSchema.parse((await answerOf(plan.POST(postJson('plan', request)))).document);
}, 120_000);
afterAll(() => database.remove());

const take = (document: unknown) => answerOf(accept.POST(postJson('plan/accept', document)));
const places = () => made.cleanings.map(({ tag, start }) => ({ tag, start }));

describe('accepting a plan over HTTP', { timeout: 60_000 }, () => {
  it('prices the schedule again and makes dated work of it', async () => {
    expect(made.cleanings.length).toBeGreaterThan(0);
    const { status, document } = await take({
      request,
      cleanings: places(),
      by: 'planner',
      note: 'as agreed',
    });
    expect(status).toBe(200);
    const list = workListSchema.parse(document);
    expect(list.plans).toMatchObject([
      { id: document.accepted, site: request.site, acceptedBy: 'planner', note: 'as agreed' },
    ]);
    const worked = list.work.map(({ tag, from, to, saves }) => [
      tag,
      Date.parse(from),
      Date.parse(to),
      saves,
    ]);
    expect(worked).toEqual(
      made.cleanings.map(({ tag, start, end, saves }) => [
        tag,
        Date.parse(start),
        Date.parse(end),
        expect.closeTo(saves, 6),
      ]),
    );
  });

  it('refuses a schedule that breaks a constraint and names it, unless that is accepted', async () => {
    const idle = { ...request, online: { crewHoursPerWeek: 0.001 } };
    const asked = { request: idle, cleanings: places(), by: 'planner' };
    const { status, document } = await take(asked);
    expect(status).toBe(409);
    const errors = document.errors as { field: string; message: string }[];
    expect(errors[0]!.field).toContain(made.cleanings[0]!.tag);
    expect(errors[0]!.message).not.toBe('');
    expect((await take({ ...asked, acceptClashes: true })).status).toBe(200);
  });

  it('refuses an unknown unit, and an empty schedule', async () => {
    const start = made.cleanings[0]!.start;
    const unknown = await take({ request, cleanings: [{ tag: 'Z-9', start }], by: 'planner' });
    expect(unknown.status).toBe(422);
    const { document } = await take({ request, cleanings: [] });
    expect((document.errors as { field: string }[]).map(({ field }) => field)).toEqual(['cleanings']);
  });

  it('refuses to let a unit over its limit wait although there is room for it earlier', async () => {
    const { context } = database;
    const [{ unit, site }] = (await listUnits(context.store.entities)) as [UnitRecord];
    const [limit] = unit.limits as [{ kind: 'fouling-resistance'; value: { value: number; unit: string } }];
    const value = { ...limit.value, value: limit.value.value / 20 };
    const { name, timeZone, currency } = site;
    await registerFleet(context, {
      site: { name, timeZone, currency },
      units: [{ ...unit, limits: [{ ...limit, value }] }],
    });
    await analyse(context);
    const solved = planResultSchema.parse((await answerOf(plan.POST(postJson('plan', request)))).document);
    const own = solved.cleanings.filter(({ tag }) => tag === unit.tag);
    expect(own[0]!.reason).toBe('over-limit');
    const later = new Date(Date.parse(own[0]!.start) + 21 * 86_400_000).toISOString();
    const { status, document } = await take({
      request,
      cleanings: [{ tag: unit.tag, start: later }],
      by: 'planner',
    });
    expect(status).toBe(409);
    expect(document.errors).toContainEqual({
      field: unit.tag,
      message: expect.stringMatching(/is over its limit and would wait 21 days longer than it must/),
    });
  });
});
