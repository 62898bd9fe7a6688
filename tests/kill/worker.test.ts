import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { TO_BE_TOLD } from '@/lib/store/series/analysis-store';
import { analyse } from '@/lib/work/analyse';
import { analysedContent, forgetAnalyses } from '../support/analysed-content';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { fillDueFleet, NOW } from './fleet';

const SCRIPT = fileURLToPath(new URL('verb-process.ts', import.meta.url));
const UNITS = 6;
const KILLS = 2;

let database: TemporaryDatabase;
let never: Awaited<ReturnType<typeof analysedContent>>;

beforeAll(async () => {
  vi.stubEnv('CLEANBY_NOW', NOW);
  database = await temporaryDatabase();
  await fillDueFleet(database.context, UNITS);
  await analyse(database.context);
  never = await analysedContent(database.context);
}, 300_000);
afterAll(async () => {
  vi.unstubAllEnvs();
  await database.remove();
});

/** A worker in a process of its own. */
function startWorker(...args: string[]): ChildProcess & { said: string } {
  const child = spawn(process.execPath, ['--import', 'tsx', SCRIPT, 'work', ...args], {
    env: { ...process.env, DATABASE_URL: database.url, CLEANBY_LOG: 'info' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const worker = Object.assign(child, { said: '' });
  for (const stream of [child.stdout!, child.stderr!])
    stream.on('data', (data) => {
      worker.said += data;
    });
  return worker;
}

async function endOf(worker: ChildProcess & { said: string }): Promise<void> {
  const [code] = (await once(worker, 'close')) as [number | null];
  expect(code, worker.said).toBe(0);
}

const heldUnits = () =>
  database.context.store.entities.unitDue.findMany({
    where: { heldBy: { not: null }, since: { lt: TO_BE_TOLD } },
  });

/** Waits until a worker has done some units and has another in hand. */
async function untilMidway(doneAlready: number): Promise<void> {
  const { entities } = database.context.store;
  while ((await entities.unitResult.count()) < doneAlready || (await heldUnits()).length === 0)
    await pause(2);
}

/** Units that workers say they have worked out. */
function unitsSaid({ said }: { said: string }): number {
  return said
    .split('\n')
    .filter((line) => line.startsWith('{'))
    .map((line) => JSON.parse(line) as { msg?: string; units?: number })
    .filter(({ msg }) => msg === 'analysed')
    .reduce((sum, { units = 0 }) => sum + units, 0);
}

describe('a worker killed in the middle of a unit', () => {
  it(`leaves it due, and another on the machine takes it at once, ${KILLS} times`, async () => {
    let inTheMiddle = 0;
    for (let kill = 0; kill < KILLS; kill++) {
      await forgetAnalyses(database.context);
      const killed = startWorker('--threads', '1');
      await untilMidway(kill + 1);
      killed.kill('SIGKILL');
      await once(killed, 'close');
      const left = await database.context.store.series.due();
      expect(left.size).toBeGreaterThan(0);
      const held = await heldUnits();
      if (held.length > 0) inTheMiddle++;
      for (const { unitId } of held) expect(left.has(unitId)).toBe(true);

      await endOf(startWorker('--threads', '1', '--once'));
      expect(await analysedContent(database.context)).toEqual(never);
    }
    expect(inTheMiddle).toBeGreaterThan(0);
  }, 600_000);
});

describe('several workers at once', () => {
  it('share the units, each of which is analysed once, and end like one', async () => {
    await forgetAnalyses(database.context);
    const workers = [1, 2, 3].map(() => startWorker('--threads', '1', '--once'));
    await Promise.all(workers.map(endOf));
    expect(workers.reduce((sum, worker) => sum + unitsSaid(worker), 0)).toBe(UNITS);
    expect(await analysedContent(database.context)).toEqual(never);
  }, 600_000);

  it('as do one with several threads', async () => {
    await forgetAnalyses(database.context);
    await endOf(startWorker('--threads', '2', '--once'));
    expect(await analysedContent(database.context)).toEqual(never);
  }, 600_000);
});

describe('a worker asked to stop', () => {
  it('lets go what it has in hand and ends: nothing is held, nothing half done', async () => {
    await forgetAnalyses(database.context);
    const worker = startWorker('--threads', '1');
    await untilMidway(1);
    worker.kill('SIGTERM');
    await endOf(worker);
    expect(await heldUnits()).toEqual([]);
    await analyse(database.context);
    expect(await analysedContent(database.context)).toEqual(never);
  }, 600_000);
});
