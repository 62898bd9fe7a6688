import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { progressText } from '@/lib/cli/progress-line';
import { keepWorkerBeside } from '@/lib/cli/worker-beside';
import { analyse } from '@/lib/work/analyse';
import { computerFor, openThreads } from '@/lib/work/analysis/threads';
import { workerBeside } from '@/lib/work/analysis/worker-beside';
import { fillDueFleet, NOW } from '../kill/fleet';
import { analysedContent, forgetAnalyses } from '../support/analysed-content';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

const UNITS = 4;

let database: TemporaryDatabase;
let whole: Awaited<ReturnType<typeof analysedContent>>;

beforeAll(async () => {
  vi.stubEnv('CLEANBY_NOW', NOW);
  database = await temporaryDatabase();
  vi.stubEnv('DATABASE_URL', database.url);
  await fillDueFleet(database.context, UNITS);
  await analyse(database.context);
  whole = await analysedContent(database.context);
}, 300_000);
afterAll(async () => {
  vi.unstubAllEnvs();
  await database.remove();
});
beforeEach(() => forgetAnalyses(database.context));

describe('an analysis', () => {
  it('says how far it has come, unit by unit', async () => {
    const said: [number, number][] = [];
    await analyse(database.context, { onProgress: (done, of) => said.push([done, of]) });
    expect(said).toEqual(Array.from({ length: UNITS }, (_, index) => [index + 1, UNITS]));
  });

  it('that is stopped keeps what is finished and leaves the rest due', async () => {
    const stopping = new AbortController();
    const stopped = await analyse(database.context, {
      signal: stopping.signal,
      onProgress: (done) => {
        if (done === 2) stopping.abort();
      },
    });
    expect(stopped.analysed).toEqual([]);
    expect(await database.context.store.entities.unitResult.count()).toBe(2);
    expect((await database.context.store.series.due()).size).toBe(UNITS);
    await analyse(database.context);
    expect(await analysedContent(database.context)).toEqual(whole);
  });

  it('by threads gives the same to the last digit', async () => {
    await analyse(database.context, { computer: () => openThreads(database.url, 2) });
    expect(await analysedContent(database.context)).toEqual(whole);
  }, 240_000);

  it('of a few units starts no thread', async () => {
    const { series } = database.context.store;
    const computer = computerFor(series, { databaseUrl: database.url, threads: 2 })(3);
    expect(computer.lanes).toBe(1);
    await computer.close();
  });
});

describe('a worker beside the server', () => {
  it('does what the server is asked to analyse, until it is ended', async () => {
    const end = keepWorkerBeside();
    try {
      expect(workerBeside()).not.toBeNull();
      const { analysed } = await analyse(database.context);
      expect(analysed).toHaveLength(UNITS);
      expect(await analysedContent(database.context)).toEqual(whole);
    } finally {
      await end();
    }
    expect(workerBeside()).toBeNull();
  }, 600_000);
});

describe('the line of progress', () => {
  it('tells how many are done, how fast, and how long it will still take', () => {
    expect(progressText('units', { done: 120, of: 1000, seconds: 2.5 })).toBe(
      '120 of 1000 units, 48.0/s, 19 s left',
    );
    expect(progressText('units', { done: 0, of: 10, seconds: 1 })).toBe('0 of 10 units');
  });
});
