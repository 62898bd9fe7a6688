import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type AnalysedUnit, NO_READING, type Phase, TO_BE_TOLD } from '@/lib/store/series/analysis-store';
import { registerFleet } from '@/lib/work/register-fleet';
import { makeHeldOutFleet } from '@/seed/held-out';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

const LEASE_MS = 60_000;
const UNITS = 5;

let database: TemporaryDatabase;
let ids: number[];
const store = () => database.context.store.series;
const take = (
  worker: string,
  { phase = 'own' as Phase, most = UNITS, leaseMs = LEASE_MS, of = null as number[] | null } = {},
) => store().analysis.takeDue({ worker, phase, most, leaseMs, of });
const numbers = (units: readonly { unitId: number }[]) => units.map(({ unitId }) => unitId);
const done = (
  { unitId, mark }: { unitId: number; mark: string },
  after: AnalysedUnit['after'],
): AnalysedUnit => ({
  ...{ unitId, mark, after },
  written: null,
});

beforeAll(async () => {
  database = await temporaryDatabase();
  await registerFleet(database.context, makeHeldOutFleet(7, UNITS).fleet);
  ids = (await database.context.store.entities.unit.findMany({ orderBy: { id: 'asc' } })).map(({ id }) => id);
});
afterAll(() => database.remove());
beforeEach(async () => {
  await database.context.store.entities.unitDue.deleteMany();
  await store().markAllDue(ids, 1000);
});

describe('units due for analysis', () => {
  it('are held by workers that others can name', async () => {
    const [first] = await take('a', { most: 1 });
    await take('b', { most: 1, leaseMs: -1 });
    await store().analysis.setAside('a', [first!.unitId], LEASE_MS);
    expect(await store().analysis.workers()).toEqual(['b']);
    await store().analysis.letGo('b');
    expect(await store().analysis.workers()).toEqual([]);
  });

  it('are taken by number, each by one worker only', async () => {
    const first = await take('a', { most: 3 });
    const second = await take('b');
    expect(numbers(first)).toEqual(ids.slice(0, 3));
    expect(numbers(second)).toEqual(ids.slice(3));
    expect(first.map(({ since }) => since)).toEqual([1000, 1000, 1000]);
    expect(await take('c')).toEqual([]);
    expect(await store().analysis.dueCounts(null)).toEqual({ own: UNITS, told: 0 });
  });

  it('are taken in the order of what changed first in them', async () => {
    await store().markDue(ids[4]!, 300);
    await store().markDue(ids[2]!, 200);
    expect(numbers(await take('a', { most: 2 }))).toEqual([ids[2], ids[4]]);
    expect(numbers(await take('b', { most: 2 }))).toEqual([ids[0], ids[1]]);
  });

  it('are taken together by one of several that ask at once', async () => {
    const taken = await Promise.all(['a', 'b', 'c'].map((worker) => take(worker, { most: 2 })));
    const all = taken.flatMap(numbers);
    expect(new Set(all).size).toBe(all.length);
    expect(all.length).toBe(UNITS);
  });

  it('are taken again when their worker lets them go, or is not heard of any more', async () => {
    await take('a');
    await store().analysis.letGo('a');
    expect(await take('b', { leaseMs: 1 })).toHaveLength(UNITS);
    await pause(20);
    expect(await take('c')).toHaveLength(UNITS);
  });

  it('stay with a worker that holds on', async () => {
    await take('a', { leaseMs: 1 });
    await store().analysis.holdOn('a', LEASE_MS);
    await pause(20);
    expect(await take('b')).toEqual([]);
  });

  it('are told of the others only when none is left that changed itself, held ones included', async () => {
    const taken = await take('a');
    await store().analysis.saveAnalysed(
      'a',
      taken.slice(1).map((unit) => done(unit, 'told')),
    );
    expect(await take('b', { phase: 'told' })).toEqual([]);
    expect(numbers(await take('b', { phase: 'told', of: ids.slice(1, 3) }))).toEqual(ids.slice(1, 3));
    await store().analysis.saveAnalysed('a', [done(taken[0]!, 'told')]);
    expect(numbers(await take('b', { phase: 'told' }))).toEqual([ids[0], ...ids.slice(3)]);
  });

  it('stay due where something changed while they were worked out, and are let go', async () => {
    const taken = await take('a');
    await store().markDue(ids[0]!, 500);
    await store().markDue(ids[1]!, NO_READING);
    await store().analysis.saveAnalysed(
      'a',
      taken.map((unit) => done(unit, 'done')),
    );
    expect([...(await store().due()).keys()].sort((a, b) => a - b)).toEqual(ids.slice(0, 2));
    const again = await take('b');
    expect(again.map(({ since }) => since)).toEqual([500, 1000]);
  });

  it('are not written by a worker that has lost them', async () => {
    const taken = await take('a', { leaseMs: 1 });
    await pause(20);
    const [mine] = await take('b', { most: 1 });
    await store().analysis.saveAnalysed(
      'a',
      taken.map((unit) => done(unit, 'done')),
    );
    // The one that another holds stays; the others nobody has taken meanwhile.
    expect([...(await store().due()).keys()]).toEqual([mine!.unitId]);
  });

  it('are not waited for where they could not be worked out, until their time comes again', async () => {
    const taken = await take('a');
    await store().analysis.setAside('a', [ids[0]!], LEASE_MS);
    await store().analysis.saveAnalysed(
      'a',
      taken.slice(1).map((unit) => done(unit, 'told')),
    );
    expect(await store().analysis.dueCounts(null)).toEqual({ own: 0, told: UNITS - 1 });
    expect(await take('b', { phase: 'told' })).toHaveLength(UNITS - 1);
    expect(await take('b')).toEqual([]);
    expect((await store().due()).get(ids[0]!)?.since).toBe(1000);
  });

  it('that wait to be told have the largest of all instants', async () => {
    const taken = await take('a', { most: 1 });
    await store().analysis.saveAnalysed(
      'a',
      taken.map((unit) => done(unit, 'told')),
    );
    expect((await store().due()).get(ids[0]!)?.since).toBe(TO_BE_TOLD);
  });
});
