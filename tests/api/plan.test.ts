import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as calendar from '@/app/api/v1/calendar/route';
import * as plan from '@/app/api/v1/plan/route';
import { planResultSchema } from '@/lib/contract/plan';
import { readPlanning } from '@/lib/work/read-planning';
import { answerOf, apiDatabase, postJson, request } from '../support/api';
import { plannedFleet } from '../support/planned-fleet';
import type { TemporaryDatabase } from '../support/temporary-database';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
});
afterAll(() => database.remove());

const post = (document: unknown) => answerOf(plan.POST(postJson('plan', document)));
const put = (document: unknown) =>
  answerOf(calendar.PUT(request('calendar', { method: 'PUT', body: JSON.stringify(document) })));

describe('plans over HTTP', { timeout: 120_000 }, () => {
  it('say that there is nothing to plan before the first unit', async () => {
    const { status, document } = await post({});
    expect(status).toBe(422);
    expect(document.detail).toBe(
      'No unit can be planned: there is none yet; register units, import their readings, then analyse them',
    );
  });

  it('refuse a word they do not know, by its name', async () => {
    const { status, document } = await post({ notTogther: [['A', 'B']] });
    expect(status).toBe(422);
    expect(document.errors).toMatchObject([{ field: 'notTogther' }]);
  });

  it('keep the calendar of a site, and make a plan with it', async () => {
    const { site, tags } = await plannedFleet(database.context, { seed: 31, units: 2 });
    const kept = {
      site,
      outages: [{ name: 'Summer stop', from: '2026-07-13', to: '2026-07-19' }],
      crewHoursPerWeek: 20,
      notTogether: [tags],
    };
    expect(await put(kept)).toMatchObject({ status: 200, document: kept });
    const stored = (await readPlanning(database.context, site)).request;
    const { status, document } = await post({ ...stored, confidence: 0.5, weeks: 26, timeLimit: 60 });
    expect(status).toBe(200);
    expect(planResultSchema.parse(document)).toMatchObject({ status: 'optimal', clashes: [] });
  });

  it('refuse a calendar of a site that is not there, and fields that cannot be', async () => {
    const kept = { site: 'Nowhere', outages: [], crewHoursPerWeek: null, notTogether: [] };
    expect(await put(kept)).toMatchObject({ status: 404 });
    const { status, document } = await put({ ...kept, crewHoursPerWeek: -1 });
    expect(status).toBe(422);
    expect(document.errors).toMatchObject([{ field: 'crewHoursPerWeek' }]);
  });

  it('refuse a body that is no JSON', async () => {
    const { status, type } = await answerOf(plan.POST(request('plan', { method: 'POST', body: '{' })));
    expect([status, type]).toEqual([422, 'application/problem+json']);
  });
});
