import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { planResultSchema } from '@/lib/contract/plan';
import { makePlan } from '@/lib/work/make-plan';
import { priceDraft } from '@/lib/work/price-draft';
import { readPlanning } from '@/lib/work/read-planning';
import { saveCalendar } from '@/lib/work/save-calendar';
import { plannedFleet } from '../support/planned-fleet';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

let database: TemporaryDatabase;
let site: string;
let tags: string[];

beforeAll(async () => {
  database = await temporaryDatabase();
  ({ site, tags } = await plannedFleet(database.context, { seed: 31, units: 4 }));
}, 120_000);
afterAll(() => database.remove());

const OUTAGES = [
  { name: 'Summer stop', from: '2026-07-13', to: '2026-07-19', crewHours: 60 },
  { name: 'Winter stop', from: '2026-12-21T06:00:00+00:00', to: '2026-12-24T18:00:00+00:00' },
];
const planOf = (more: object = {}) =>
  makePlan(database.context, {
    outages: OUTAGES,
    online: { crewHoursPerWeek: 20 },
    confidence: 0.5,
    // Long enough for a proof on any machine; it takes a second or two.
    timeLimit: 60,
    ...more,
  });

describe('a plan from stored results', { timeout: 60_000 }, () => {
  it('is what the contract says, keeps its constraints, and costs no more than either plain rule', async () => {
    const plan = await planOf({ notTogether: [[tags[0], tags[1]]] });
    expect(planResultSchema.parse(plan)).toEqual(plan);
    expect(plan.status).toBe('optimal');
    expect(plan.cleanings.length).toBeGreaterThan(0);
    for (const rule of [plan.compared.allAtNextOutage, plan.compared.fixedInterval])
      if (rule.total !== null) expect(plan.cost.total).toBeLessThanOrEqual(rule.total * (1 + 1e-9));
    const { cleaning, downtime, loss, total } = plan.cost;
    expect(cleaning + downtime + loss).toBeCloseTo(total, 6);
    expect(plan.cleanings.reduce((sum, { cost }) => sum + cost, 0)).toBeCloseTo(cleaning + downtime, 6);
    // Where nothing is cleaned, just those go beyond their limit whose first cleaning has a day in the plan to be before.
    const firsts = tags.flatMap((tag) => plan.cleanings.find((cleaning) => cleaning.tag === tag) ?? []);
    const asked = firsts.filter(({ cleanBefore }) => cleanBefore !== null && cleanBefore <= plan.to);
    expect(asked.length).toBeGreaterThan(0);
    expect(plan.compared.noCleaning.beyondLimit).toBe(asked.length);
    for (const { daysLate, start, cleanBefore } of plan.cleanings) {
      expect(daysLate).toBe(0);
      if (cleanBefore !== null) expect(start.slice(0, 10) < cleanBefore).toBe(true);
    }
  });

  it('names a unit whose limit comes before the first place it can be cleaned in, and gives the nearest plan', async () => {
    const plan = await planOf({ confidence: 0.9 });
    expect(plan.status).toBe('infeasible');
    expect(plan.gap).toBeNull();
    expect(plan.clashes).toMatchObject([{ kind: 'limit', tags: ['HX-4'] }]);
    const first = plan.cleanings.find(({ tag }) => tag === 'HX-4')!;
    expect(first.start).toBe('2026-06-08T08:00:00+00:00');
    expect(first.daysLate).toBeGreaterThan(0);
  });

  it('keeps each week within its crew and an outage within its own', async () => {
    const { cleanings } = await planOf();
    const perWeek = new Map<string, number>();
    for (const { outage, start, crewHours } of cleanings) {
      const pool = outage ?? start.slice(0, 10);
      perWeek.set(pool, (perWeek.get(pool) ?? 0) + crewHours);
    }
    for (const [pool, hours] of perWeek)
      expect(hours, pool).toBeLessThanOrEqual(
        pool === 'Summer stop' ? 60 : pool === 'Winter stop' ? Infinity : 20,
      );
  });

  it('keeps a locked cleaning and plans the rest around it', async () => {
    const first = (await planOf()).cleanings[0]!;
    const moved = { tag: first.tag, start: '2026-06-22T08:00:00+00:00' };
    const plan = await planOf({ locked: [moved] });
    expect(plan.cleanings).toContainEqual(
      expect.objectContaining({ tag: first.tag, start: moved.start, isLocked: true, reason: 'locked' }),
    );
  });

  it('prices a draft like the plan it is, and says what a draft breaks', async () => {
    const plan = await planOf();
    const request = (await readPlanning(database.context, site)).request;
    const same = {
      ...request,
      outages: OUTAGES,
      online: { crewHoursPerWeek: 20 },
      notTogether: [],
      confidence: 0.5,
    };
    const draft = await priceDraft(database.context, same, plan.cleanings);
    expect(draft.cost.total).toBeCloseTo(plan.cost.total, 6);
    expect(draft.clashes).toEqual([]);
    const crowded = tags.slice(0, 2).map((tag) => ({ tag, start: '2026-06-15T08:00:00+00:00' }));
    const clashes = (await priceDraft(database.context, same, crowded)).clashes;
    expect(clashes).toContainEqual(expect.objectContaining({ kind: 'crew', tags: tags.slice(0, 2) }));
    expect(clashes.find(({ kind }) => kind === 'crew')!.constraint).toContain('32 h needed, 20 h there');
  });

  it('refuses a draft that begins where nothing can, naming the cleaning', async () => {
    const { request } = await readPlanning(database.context, site);
    await expect(
      priceDraft(database.context, request, [{ tag: tags[0]!, start: '2026-06-16T03:00:00+00:00' }]),
    ).rejects.toMatchObject({ faults: [{ field: 'cleanings[0].start' }] });
  });

  it('names unknown sites and units and an outage the wrong way round', async () => {
    await expect(
      planOf({
        outages: [{ name: 'Backwards', from: '2026-08-02', to: '2026-08-01' }],
        notTogether: [['XX-1', tags[0]]],
        site: 'Nowhere',
      }),
    ).rejects.toMatchObject({
      code: 'invalid-input',
      faults: [{ field: 'site' }, { field: 'outages[0].to' }, { field: 'notTogether[0][0]' }],
    });
  });

  it('refuses two crews of one site: each cleaning would take its hours from both', async () => {
    const crew = { crewHoursPerWeek: 20, site };
    const without = { crewHoursPerWeek: 8 };
    await expect(planOf({ online: [crew, without, crew] })).rejects.toMatchObject({
      code: 'invalid-input',
      faults: [
        {
          field: 'online[2].site',
          message: `The crew of "${site}" is stated twice: state it once, with the hours of both`,
        },
      ],
    });
    await expect(planOf({ online: [without, without] })).rejects.toMatchObject({
      faults: [{ field: 'online[1].site' }],
    });
    expect((await planOf({ online: [crew, without] })).cleanings.length).toBeGreaterThan(0);
  });

  it('stops when the caller goes away', async () => {
    const gone = AbortSignal.abort();
    await expect(makePlan(database.context, { outages: OUTAGES }, { signal: gone })).rejects.toThrow();
  });

  it('reads the stored calendar as the request it began as', async () => {
    const calendar = {
      site,
      outages: OUTAGES.map(({ name, from, to }) => ({ name, from, to, crewHours: 50 })),
      crewHoursPerWeek: 24,
      notTogether: [tags.slice(0, 3)],
    };
    await saveCalendar(database.context, calendar);
    const { request } = await readPlanning(database.context, site);
    expect(request.online).toEqual({ crewHoursPerWeek: 24 });
    expect(request.notTogether).toHaveLength(3);
    expect(request.outages).toMatchObject([
      {
        name: 'Summer stop',
        from: '2026-07-13T00:00:00+00:00',
        to: '2026-07-20T00:00:00+00:00',
        crewHours: 50,
      },
      { name: 'Winter stop', crewHours: 50 },
    ]);
    await expect(
      saveCalendar(database.context, { ...calendar, notTogether: [[tags[0], 'XX-9']] }),
    ).rejects.toMatchObject({ faults: [{ field: 'notTogether[0][1]' }] });
    expect((await readPlanning(database.context, site)).request).toEqual(request);
  });
});
