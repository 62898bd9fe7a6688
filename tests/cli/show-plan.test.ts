import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { workListSchema } from '@/lib/contract/planned';
import { acceptPlan } from '@/lib/work/accept-plan';
import { registerFleet } from '@/lib/work/register-fleet';
import { ANY_REQUEST, plannedCleaning, planResultOf } from '../support/plan-records';
import { runCleanby } from '../support/run-cleanby';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await temporaryDatabase();
  await registerFleet(database.context, plainFleet(['E-1']));
});
afterAll(() => database.remove());

const show = (...args: string[]) => runCleanby(['show', 'plan', ...args], database.url);

describe('cleanby show plan', { timeout: 60_000 }, () => {
  it('says how to accept a plan before there is one, then prints its dated work', async () => {
    const before = await show('--json');
    expect([before.code, workListSchema.parse(JSON.parse(before.stdout)).plans]).toEqual([0, []]);
    expect(before.stderr).toContain('no plan has been accepted yet');

    database.context.now = () => Date.parse('2026-05-04T08:00:00Z');
    const result = planResultOf([plannedCleaning('E-1', '2026-06-01T06:00:00Z')]);
    await acceptPlan(database.context, { request: ANY_REQUEST, result, by: 'planner', note: null });
    const list = workListSchema.parse(JSON.parse((await show('--json')).stdout));
    expect(list).toMatchObject({ plans: [{ acceptedBy: 'planner' }], work: [{ tag: 'E-1', state: 'open' }] });
    const table = await show();
    expect(table.stdout).toMatch(/E-1 +Test works +2026-06-01T07:00:00\+01:00/);
    expect(table.stderr).toContain('accepted');
  });
});
