import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { AppError } from '@/lib/contract/app-error';
import type { ChangeFilter } from '@/lib/store/entities/change-records';
import { listChanges } from '@/lib/store/entities/change-records';
import { openStore } from '@/lib/store/open-store';
import { acceptPlan } from '@/lib/work/accept-plan';
import { callOffPlanned } from '@/lib/work/call-off-planned';
import { actingAs, type Context } from '@/lib/work/context';
import { correctCleaning } from '@/lib/work/correct-cleaning';
import { finishPlanned } from '@/lib/work/finish-planned';
import { undoImport } from '@/lib/work/import-batches';
import { importReadings } from '@/lib/work/import-readings';
import { judgePeriod } from '@/lib/work/judge-period';
import { listRegistered } from '@/lib/work/list-registered';
import { movePlanned } from '@/lib/work/move-planned';
import { showCleanings } from '@/lib/work/read-cleanings';
import { readPlanning } from '@/lib/work/read-planning';
import { showPrices } from '@/lib/work/read-prices';
import { showWorkList } from '@/lib/work/read-work-list';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { recordPrice } from '@/lib/work/record-price';
import { registerFleet } from '@/lib/work/register-fleet';
import { saveCalendar } from '@/lib/work/save-calendar';
import { saveUnit } from '@/lib/work/save-unit';
import { withdrawCleaning } from '@/lib/work/withdraw-cleaning';
import { withdrawVerdict } from '@/lib/work/withdraw-verdict';
import { readingsCsv } from '../support/api';
import { ANY_REQUEST, plannedCleaning, planResultOf } from '../support/plan-records';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

const NOW = Date.parse('2026-05-04T08:00:00Z');
const HOUR = 3_600_000;
/** Rounds of each thing; in each, two people on a database opened by each save at once. */
const ROUNDS = 12;
const PEOPLE = ['Ann Perez', 'Bo Lind'] as const;
const SITE = 'Test works';

let database: TemporaryDatabase;
let other: Awaited<ReturnType<typeof openStore>>;
let writers: Context[];

beforeEach(async () => {
  database = await temporaryDatabase();
  database.context.now = () => NOW;
  other = await openStore(database.url);
  const contexts = [database.context, { ...database.context, store: other }];
  writers = contexts.map((context, index) =>
    actingAs(context, { kind: 'person', id: `${index}`, name: PEOPLE[index]! }),
  );
  await registerFleet(database.context, plainFleet(['E-1', 'E-2'], { cleaning: { cost: 900 } }));
});
afterEach(async () => {
  await other.close();
  await database.remove();
});

const recorded = (filter: ChangeFilter) => listChanges(database.context.store.entities, filter, 1000);

type Edit = (context: Context, text: string) => Promise<unknown>;

/** Lets both save at once and gives the name of the one who did; the other is refused, and told by whom. */
async function both(edit: Edit, round: number): Promise<string> {
  const outcomes = await Promise.allSettled(
    writers.map((context) => edit(context, `${context.actor.name} in round ${round}`)),
  );
  const won = PEOPLE.filter((_, index) => outcomes[index]!.status === 'fulfilled');
  expect(won).toHaveLength(1);
  const lost = outcomes.find((outcome) => outcome.status === 'rejected')!;
  const { code, message, faults } = (lost as PromiseRejectedResult).reason as AppError;
  expect(code).toBe('conflict');
  expect(`${message} ${faults[0]!.message}`).not.toMatch(/SQLITE|busy|locked/i);
  expect(message).toContain(won[0]!);
  return `${won[0]} in round ${round}`;
}

/** Many rounds: what stands afterwards is what was acknowledged, and every acknowledged change was written down. */
async function race(edit: (round: number) => Promise<Edit>, check: (text: string) => Promise<void>) {
  for (let round = 0; round < ROUNDS; round++) await check(await both(await edit(round), round));
}

describe('two who save at once', { timeout: 120_000 }, () => {
  it('a datasheet: one is refused and told what the other did', async () => {
    const known = async () => (await listRegistered(database.context)).units[0]!;
    await race(
      async () => {
        const { site, unit, version } = await known();
        return (context, service) => saveUnit(context, { site, unit: { ...unit, service }, version });
      },
      async (text) => {
        expect((await known()).unit.service).toBe(text);
        const [last] = await recorded({ subjects: ['unit'], name: 'E-1' });
        expect(last).toMatchObject({ after: { service: text }, actor: { name: text.split(' in ')[0] } });
      },
    );
    expect((await known()).version).toBe(1 + ROUNDS);
    expect(await recorded({ subjects: ['unit'], name: 'E-1' })).toHaveLength(1 + ROUNDS);
  });

  it('a new unit of one tag: there is one, of the first', async () => {
    const { site, unit } = (await listRegistered(database.context)).units[0]!;
    await race(
      async (round) => (context, service) =>
        saveUnit(context, { site, unit: { ...unit, tag: `N-${round}`, service } }).catch(
          (error: AppError) => {
            // Where the other was done before this one was checked, the tag itself is refused.
            if (error.code === 'conflict') throw error;
            expect(error.faults).toMatchObject([{ field: 'unit.tag' }]);
            throw Object.assign(error, { code: 'conflict', message: PEOPLE.join() });
          },
        ),
      async (text) => {
        const { units } = await listRegistered(database.context);
        expect(units.filter(({ unit: own }) => own.service === text)).toMatchObject([{ version: 1 }]);
      },
    );
  });

  it('a recorded cleaning: corrected by one, and withdrawn by one of two', async () => {
    await recordCleaning(database.context, { tag: 'E-1', at: NOW - 90 * HOUR });
    const known = async () => (await showCleanings(database.context, 'E-1')).cleanings[0]!;
    await race(
      async () => {
        const { id, revision } = await known();
        return (context, note) =>
          correctCleaning(context, 'E-1', { id, revision, note, reason: 'read again' });
      },
      async (text) => {
        expect((await known()).note).toBe(text);
        const [last] = await recorded({ subjects: ['cleaning'], name: 'E-1' });
        expect(last).toMatchObject({ after: { note: text }, note: 'read again' });
      },
    );
    expect(await recorded({ subjects: ['cleaning'], action: 'changed' })).toHaveLength(ROUNDS);
    expect((await showCleanings(database.context, 'E-1')).changes).toHaveLength(ROUNDS);
    const { id, revision } = await known();
    await both((context, note) => withdrawCleaning(context, 'E-1', { id, revision, note }), 0);
    expect(await recorded({ subjects: ['cleaning'], action: 'withdrawn' })).toHaveLength(1);
  });

  it('a cleaning at one instant, where it has to be new', async () => {
    await Promise.allSettled(
      writers.map((context) =>
        recordCleaning(context, { tag: 'E-2', at: NOW - HOUR, note: context.actor.name, isNew: true }),
      ),
    );
    const { cleanings, changes } = await showCleanings(database.context, 'E-2');
    expect([cleanings.length, changes.length]).toEqual([1, 0]);
    expect(await recorded({ subjects: ['cleaning'] })).toHaveLength(1);
  });

  it('the calendar of a site', async () => {
    const outage = { from: '2026-07-01T00:00:00Z', to: '2026-07-05T00:00:00Z', crewHours: 20 };
    const known = async () => (await readPlanning(database.context, SITE)).calendarRevision;
    await race(
      async () => {
        const revision = await known();
        return (context, name) =>
          saveCalendar(context, {
            site: SITE,
            outages: [{ ...outage, name }],
            crewHoursPerWeek: 24,
            notTogether: [['E-1', 'E-2']],
            revision,
          });
      },
      async (text) => {
        const { request } = await readPlanning(database.context, SITE);
        expect(request.outages.map(({ name }) => name)).toEqual([text]);
      },
    );
    expect(await known()).toBe(ROUNDS);
    expect(await recorded({ subjects: ['calendar'], name: SITE })).toHaveLength(ROUNDS);
  });

  it('a piece of planned work: moved, called off, done', async () => {
    const result = planResultOf([plannedCleaning('E-1', '2026-07-01T06:00:00Z')]);
    await acceptPlan(database.context, { request: ANY_REQUEST, result, note: null });
    const known = async () => (await showWorkList(database.context)).work[0]!;
    await race(
      async (round) => {
        const { id, revision } = await known();
        return (context, reason) => {
          const from = new Date(
            NOW + (1 + round) * 48 * HOUR + (context === writers[0] ? 0 : HOUR),
          ).toISOString();
          return movePlanned(context, id, { from, reason, revision });
        };
      },
      async (text) => expect((await known()).note).toBe(text),
    );
    const { id, revision } = await known();
    expect(revision).toBe(ROUNDS);
    // One calls it off while the other marks it done: one of the two holds.
    const [off, done] = await Promise.allSettled([
      callOffPlanned(writers[0]!, id, { reason: 'not needed', revision }),
      finishPlanned(writers[1]!, id, { at: new Date(NOW - HOUR).toISOString(), revision }),
    ]);
    expect([off!.status, done!.status].sort()).toEqual(['fulfilled', 'rejected']);
    const { state } = await known();
    expect(state).toBe(off!.status === 'fulfilled' ? 'called-off' : 'done');
    expect((await showCleanings(database.context, 'E-1')).cleanings).toHaveLength(state === 'done' ? 1 : 0);
    expect(await recorded({ subjects: ['planned-work'] })).toHaveLength(ROUNDS + 1);
  });

  it('a plan: the second is told that another one is in force', async () => {
    const result = planResultOf([plannedCleaning('E-1', '2026-07-01T06:00:00Z')]);
    const known = async () => (await showWorkList(database.context)).plans[0];
    await race(
      async () => {
        const after = (await known())?.id ?? 0;
        return (context, note) => acceptPlan(context, { request: ANY_REQUEST, result, note, after });
      },
      async (text) => expect(await known()).toMatchObject({ note: text }),
    );
    expect(await recorded({ subjects: ['plan'] })).toHaveLength(ROUNDS);
  });

  it('the price of one day', async () => {
    const price = { amount: 40, per: 'MW.h' };
    const stated = async () => (await showPrices(database.context)).supplies[0]?.dated ?? [];
    await race(
      async () => {
        const after = Math.max(0, ...(await stated()).map(({ number }) => number));
        return (context, note) =>
          recordPrice(context, { site: SITE, supply: 'gas', from: '2026-01-01', price, note, after });
      },
      async (text) =>
        expect((await stated()).find(({ isInForce }) => isInForce)).toMatchObject({ note: text }),
    );
    expect(await stated()).toHaveLength(ROUNDS);
    expect(await recorded({ subjects: ['price'] })).toHaveLength(ROUNDS);
  });

  it('a verdict is withdrawn, and an import undone, by one of them', async () => {
    for (let round = 0; round < ROUNDS; round++) {
      const day = { from: '2026-05-01T00:00:00Z', to: '2026-05-02T00:00:00Z' };
      const id = await judgePeriod(database.context, 'E-1', {
        ...day,
        verdict: 'exclude',
        note: 'meter out',
      });
      await both((context, note) => withdrawVerdict(context, 'E-1', { id, note }), round);
      const source = bytesOf(readingsCsv('E-1', 5));
      const { batch } = await importReadings(database.context, { name: 'readings.csv', source });
      await both((context) => undoImport(context, batch!), round);
    }
    expect(await recorded({ subjects: ['override'], action: 'withdrawn' })).toHaveLength(ROUNDS);
    expect(await recorded({ subjects: ['import'], action: 'undone' })).toHaveLength(ROUNDS);
  });

  it('an import is undone while another one replaces its values: each stands as a whole', async () => {
    for (let round = 0; round < ROUNDS; round++) {
      const first = await importReadings(writers[0]!, {
        name: 'first.csv',
        source: bytesOf(readingsCsv('E-1', 50)),
      });
      const changed = readingsCsv('E-1', 50).replace(/,(9|10)\.(\d{3})/g, ',20.$2');
      const [undone, second] = await Promise.all([
        undoImport(writers[0]!, first.batch!),
        importReadings(writers[1]!, { name: 'second.csv', source: bytesOf(changed) }),
      ]);
      const unit = await writers[0]!.store.entities.unit.findUniqueOrThrow({ where: { tag: 'E-1' } });
      const { hotFlow } = await writers[0]!.store.series.readReadings(unit.id, 0, Number.MAX_SAFE_INTEGER);
      // Whichever came first, the values of the second stand.
      expect(undone.removed + undone.kept).toBe(50);
      expect(second.added + second.replaced + second.unchanged).toBe(50);
      expect(Array.from(hotFlow).filter((flow) => flow >= 20)).toHaveLength(
        Array.from(hotFlow).filter((flow) => !Number.isNaN(flow)).length,
      );
      await undoImport(writers[1]!, second.batch!);
      expect(await writers[0]!.store.series.readingSpan(unit.id)).toBeNull();
    }
  });
});

async function* bytesOf(text: string): AsyncGenerator<Uint8Array> {
  yield new TextEncoder().encode(text);
}

describe('three processes that edit one datasheet', { timeout: 600_000 }, () => {
  it('lose no edit: as many versions and records as were acknowledged', async () => {
    const edits = 8;
    const outcomes = await Promise.all(
      ['Ann', 'Bo', 'Cy'].map(async (name) => {
        const script = ['--import', 'tsx', 'tests/support/edit-datasheet.ts', database.url, name, `${edits}`];
        const { stdout } = await promisify(execFile)(process.execPath, script);
        return JSON.parse(stdout) as { acknowledged: string[]; refused: string[] };
      }),
    );
    const acknowledged = outcomes.flatMap((outcome) => outcome.acknowledged);
    expect(acknowledged).toHaveLength(3 * edits);
    const versions = await database.context.store.entities.unitVersion.findMany({
      where: { unit: { tag: 'E-1' } },
    });
    const services = versions.flatMap(
      ({ document }) => (JSON.parse(document) as { service?: string }).service ?? [],
    );
    expect(services.filter((text) => text.startsWith('edit')).sort()).toEqual([...acknowledged].sort());
    const changes = await recorded({ subjects: ['unit'], name: 'E-1', action: 'changed' });
    expect(changes.map(({ after }) => (after as { service: string }).service).sort()).toEqual(
      [...acknowledged].sort(),
    );
    for (const { refused } of outcomes)
      for (const message of refused)
        expect(message).toMatch(/has been changed since you opened it, by (Ann|Bo|Cy)/);
  });
});
