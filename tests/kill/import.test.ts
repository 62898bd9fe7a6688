import { createHash } from 'node:crypto';
import { createReadStream, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import type Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { analyse } from '@/lib/work/analyse';
import { type Context, closeContext, openContext } from '@/lib/work/context';
import { importReadings } from '@/lib/work/import-readings';
import { registerFleet } from '@/lib/work/register-fleet';
import { verifyDatabase } from '@/lib/work/verify-database';
import { writeManyFiles } from '../safekeeping/many-files';
import { inDatabase } from '../safekeeping/plant';
import { plainFleet } from '../support/units';
import { freshCopy } from './fleet';
import { killAtMoments, runKilled, runWhole } from './killed-run';

const KILLS = 20;
const FILES = 5;
const ROWS = 6000;
const SEED = 20261125;

let folder: string;
let base: string;
let files: string[];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-kill-'));
  base = join(folder, 'base.db');
  await inContext(`file:${base}`, (context) => registerFleet(context, plainFleet(['E-1'])));
  files = writeManyFiles(folder, { tag: 'E-1', files: FILES, rows: ROWS });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function inContext<T>(url: string, work: (context: Context) => Promise<T>): Promise<T> {
  const context = await openContext(url);
  try {
    return await work(context);
  } finally {
    await closeContext(context);
  }
}

/** Readings of each batch that is in, in the order they came. */
function batchesIn(path: string): number[] {
  return inDatabase(path, (database: Database.Database) =>
    database
      .prepare<[], number>(
        'SELECT count(unit_id) FROM import_batch LEFT JOIN reading ON batch_id = import_batch.id GROUP BY import_batch.id ORDER BY import_batch.id',
      )
      .pluck()
      .all(),
  );
}

/** A digest of every value of every reading. */
function readingsIn(path: string): string {
  const rows = inDatabase(path, (database) =>
    database
      .prepare(
        'SELECT time, hot_in, hot_out, cold_in, cold_out, hot_flow, cold_flow FROM reading ORDER BY time',
      )
      .raw()
      .all(),
  );
  return createHash('sha256').update(JSON.stringify(rows)).digest('hex');
}

describe('an import killed anywhere', () => {
  it(`leaves whole batches, all that were acknowledged among them, ${KILLS} times over, and goes on`, async () => {
    const whole = freshCopy(base);
    const { workedUntilSaid: worked } = await runWhole(['import', ...files], whole);
    expect(batchesIn(whole.path)).toEqual(files.map(() => ROWS));
    const readings = readingsIn(whole.path);
    let midway = 0;
    const killed = await killAtMoments({ kills: KILLS, seed: SEED, worked }, async (after) => {
      const copy = freshCopy(base);
      const run = await runKilled(['import', ...files], { ...copy, after });
      const acknowledged = run.stderr.split('rows read').length - 1;
      const batches = batchesIn(copy.path);
      expect(batches.every((rows) => rows === ROWS)).toBe(true);
      expect(batches.length).toBeGreaterThanOrEqual(acknowledged);
      expect(verifyDatabase(copy.url).problems).toBe(0);
      if (run.isKilled && batches.length < FILES) midway++;

      await inContext(copy.url, async (context) => {
        if (batches.length > 0) expect((await context.store.series.due()).size).toBe(1);
        for (const file of files) {
          await importReadings(context, { name: basename(file), source: createReadStream(file) });
        }
      });
      expect(readingsIn(copy.path)).toBe(readings);
      copy.remove();
      return run;
    });
    expect(killed).toBe(KILLS);
    expect(midway).toBeGreaterThanOrEqual(KILLS * 0.6);
    expect((await inContext(whole.url, (context) => analyse(context))).analysed).toEqual(['E-1']);
    whole.remove();
  }, 600_000);
});
