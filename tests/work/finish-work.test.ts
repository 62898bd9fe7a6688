import { Readable } from 'node:stream';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { workView } from '@/lib/report/work-list/work-view';
import { acceptPlan } from '@/lib/work/accept-plan';
import { correctCleaning } from '@/lib/work/correct-cleaning';
import { finishPlanned, linkPlanned } from '@/lib/work/finish-planned';
import { importReadings } from '@/lib/work/import-readings';
import { showCleanings } from '@/lib/work/read-cleanings';
import { readWorkList, showWorkList } from '@/lib/work/read-work-list';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { registerFleet } from '@/lib/work/register-fleet';
import { readingsCsv } from '../support/api';
import { ANY_REQUEST, plannedCleaning, planResultOf } from '../support/plan-records';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

const ACCEPTED = Date.parse('2026-05-04T08:00:00Z');
const DAY = 86_400_000;
const SHIFT = { by: 'shift lead' };

let database: TemporaryDatabase;
let ids: number[];
beforeEach(async () => {
  database = await temporaryDatabase();
  const { context } = database;
  context.now = () => ACCEPTED;
  await registerFleet(context, plainFleet(['E-1'], { cleaning: { cost: 900 } }));
  const result = planResultOf([
    plannedCleaning('E-1', '2026-05-20T06:00:00Z'),
    plannedCleaning('E-1', '2027-05-20T06:00:00Z'),
  ]);
  await acceptPlan(context, { request: ANY_REQUEST, result, by: 'planner', note: null });
  ids = (await showWorkList(context)).work.map(({ id }) => id);
  context.now = () => Date.parse('2026-06-20T00:00:00Z');
});
afterEach(() => database.remove());

const states = async () => (await showWorkList(database.context)).work.map(({ state }) => state);
const finish = (at: string, id = ids[0]!) => finishPlanned(database.context, id, { at, ...SHIFT });

describe('marking work done', () => {
  const AT = '2026-05-20T18:00:00Z';

  it('never takes the place of a cleaning that is recorded at that time, and says what to do', async () => {
    const { context } = database;
    const recorded = { tag: 'E-1', at: Date.parse(AT), cost: 4321, durationMs: 7 * 3_600_000 };
    await recordCleaning(context, recorded);
    for (const at of [AT, '2026-05-20T18:00:30Z']) {
      const refused = finishPlanned(context, ids[0]!, { at, cost: 1, ...SHIFT });
      await expect(refused).rejects.toMatchObject({
        code: 'conflict',
        message: expect.stringContaining('recorded already'),
        faults: [{ field: 'at', message: expect.stringContaining('This was it') }],
      });
    }
    expect((await showCleanings(context, 'E-1')).cleanings).toMatchObject([{ cost: 4321, duration: 25_200 }]);
    expect(await states()).toEqual(['open', 'open']);
  });

  it('ties a cleaning to one piece of work only', async () => {
    const { cleaning } = await finish(AT);
    const other = ids[1]!;
    await expect(finish(AT, other)).rejects.toMatchObject({ code: 'conflict' });
    await expect(finish('2026-05-20T18:30:00Z')).rejects.toMatchObject({ code: 'conflict' });
    const { context } = database;
    await expect(linkPlanned(context, ids[0]!, { cleaning, ...SHIFT })).rejects.toMatchObject({
      code: 'conflict',
    });
    expect(await states()).toEqual(['done', 'open']);
  });

  it('refuses a time long before the plan or before the first reading of the unit', async () => {
    const { context } = database;
    await expect(finish('1926-05-20T18:00:00Z')).rejects.toMatchObject({ faults: [{ field: 'at' }] });
    const dayBefore = (days: number) => new Date(ACCEPTED - days * DAY).toISOString();
    await expect(finish(dayBefore(61))).rejects.toMatchObject({
      code: 'invalid-input',
      message: expect.stringContaining('2026-05-04'),
    });
    const source = Readable.from([Buffer.from(readingsCsv('E-1', 24, '2026-05-10T00:00:00Z'))]);
    await importReadings(context, { name: 'readings.csv', source });
    await expect(finish('2026-05-09T22:00:00Z')).rejects.toMatchObject({
      message: expect.stringContaining('first reading of E-1, 2026-05-10'),
    });
    await finish('2026-05-10T12:00:00Z');
    expect(await states()).toEqual(['done', 'open']);
  });

  it('begins with a time that has been: the planned end, or the newest reading where that is earlier', async () => {
    const { context } = database;
    const view = async () => workView(await readWorkList(context), { by: 'date', units: null }, 'si');
    const [first, second] = (await view()).open.flatMap(({ rows }) => rows);
    expect(first!.entries.at).toBe('2026-05-20T19:00');
    expect(second!.entries.at).toBe('2026-06-20T01:00');
  });

  it('gives the calendar entry another revision when the cleaning is corrected afterwards', async () => {
    const { context } = database;
    const { cleaning } = await finish(AT);
    const revision = async () => (await showWorkList(context)).work[0]!.revision;
    expect(await revision()).toBe(1);
    const corrected = { id: cleaning, at: '2026-05-20T20:00:00Z', reason: 'misread', by: 'engineer' };
    await correctCleaning(context, 'E-1', corrected);
    expect(await revision()).toBe(2);
    expect((await showWorkList(context)).work[0]!.done).toMatchObject({ to: '2026-05-20T21:00:00+01:00' });
  });
});

describe('linking work to a recorded cleaning', () => {
  it('refuses one that lies more than 60 days from the planned time', async () => {
    const { context } = database;
    const end = Date.parse('2026-05-20T18:00:00Z');
    context.now = () => end + 100 * DAY;
    await recordCleaning(context, { tag: 'E-1', at: end + 59 * DAY });
    await recordCleaning(context, { tag: 'E-1', at: end + 61 * DAY });
    const [near, far] = (await showCleanings(context, 'E-1')).cleanings.toSorted((one, other) =>
      one.at.localeCompare(other.at),
    );
    await expect(linkPlanned(context, ids[0]!, { cleaning: far!.id, ...SHIFT })).rejects.toMatchObject({
      code: 'invalid-input',
      faults: [{ field: 'cleaning', message: expect.stringContaining('60 days') }],
    });
    await expect(linkPlanned(context, ids[1]!, { cleaning: near!.id, ...SHIFT })).rejects.toMatchObject({
      code: 'invalid-input',
    });
    await linkPlanned(context, ids[0]!, { cleaning: near!.id, ...SHIFT });
    expect(await states()).toEqual(['done', 'open']);
  });
});
