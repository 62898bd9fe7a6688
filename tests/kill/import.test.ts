import { once } from 'node:events';
import { createWriteStream, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeRandom } from '@/lib/core/stats/random';
import { runCleanby, startCleanby } from '../support/run-cleanby';
import { plainFleet } from '../support/units';

const ROWS = 60_000;
const KILLS = 12;
const SEED = 20261125;

let folder: string;
let url: string;
let file: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-kill-'));
  url = `file:${join(folder, 'cleanby.db')}`;
  file = join(folder, 'readings.csv');
  writeFileSync(join(folder, 'fleet.json'), JSON.stringify(plainFleet(['E-1'])));
  await writeReadings(file);
  const registered = await runCleanby(['register', join(folder, 'fleet.json')], url);
  expect(registered.stderr).toContain('1 units added');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function writeReadings(path: string): Promise<void> {
  const out = createWriteStream(path);
  out.write('tag,time,hot_in[Cel],hot_out[Cel],cold_in[Cel],cold_out[Cel],hot_flow[kg/s],cold_flow[kg/s]\n');
  for (let i = 0; i < ROWS; i++) {
    const time = new Date(Date.UTC(2020, 0, 1) + i * 3_600_000).toISOString();
    out.write(`E-1,${time},50,40,30,40,10,${10 + (i % 7) / 100}\n`);
  }
  out.end();
  await once(out, 'finish');
}

function stored(): { readings: number; batches: number; integrity: unknown } {
  const database = new Database(join(folder, 'cleanby.db'));
  const count = (table: string) =>
    database.prepare<[], { n: number }>(`SELECT count(*) AS n FROM ${table}`).get()!.n;
  const state = {
    readings: count('reading'),
    batches: count('import_batch'),
    integrity: database.pragma('integrity_check', { simple: true }),
  };
  database.close();
  return state;
}

describe('an import killed anywhere', () => {
  it(`leaves the whole batch or nothing, ${KILLS} times over, and goes in whole afterwards`, async () => {
    const random = makeRandom(SEED);
    let killed = 0;
    for (let i = 0; i < KILLS; i++) {
      const child = startCleanby(['import', file], url);
      const timer = setTimeout(() => child.kill('SIGKILL'), 700 + random.uniform() * 2500);
      const [, signal] = (await once(child, 'exit')) as [number | null, string | null];
      clearTimeout(timer);
      if (signal === 'SIGKILL') killed++;
      const { readings, batches, integrity } = stored();
      expect([0, ROWS]).toContain(readings);
      expect(batches === 0).toBe(readings === 0);
      expect(integrity).toBe('ok');
    }
    expect(killed).toBeGreaterThan(0);
    await runCleanby(['import', file], url);
    expect(stored()).toMatchObject({ readings: ROWS, integrity: 'ok' });
  }, 180_000);
});
