import { cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { verifyDatabase } from '@/lib/work/verify-database';
import { migrateSqlite } from '@/prisma/migrate';
import { contentOf, schemaOf } from '../safekeeping/fill-tables';
import { inDatabase } from '../safekeeping/plant';
import { plainUnit } from '../support/units';
import { freshCopy } from './fleet';
import { killAtMoments, runKilled, runWhole } from './killed-run';

const KILLS = 14;
const READINGS = 250_000;
const SEED = 20261127;
const MIGRATIONS = join('prisma', 'migrations', 'sqlite');

let folder: string;
let base: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-kill-'));
  base = join(folder, 'base.db');
  const first = readdirSync(MIGRATIONS).sort()[0]!;
  mkdirSync(join(folder, 'first'));
  cpSync(join(MIGRATIONS, first), join(folder, 'first', first), { recursive: true });
  migrateSqlite(`file:${base}`, { folder: join(folder, 'first') });
  inDatabase(base, (database) => {
    database.exec("INSERT INTO site VALUES (1, 'Old works', 'Europe/Lisbon', 'EUR')");
    database.exec("INSERT INTO unit (id, tag, site_id) VALUES (1, 'E-1', 1)");
    database
      .prepare('INSERT INTO unit_version (unit_id, number, document, created_at) VALUES (1, 1, ?, 0)')
      .run(JSON.stringify(plainUnit('E-1')));
    database.exec(`
      INSERT INTO import_batch (id, source, created_at, read, added, replaced, unchanged, set_aside)
        VALUES (1, 'old.csv', 0, ${READINGS}, ${READINGS}, 0, 0, 0);
      WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ${READINGS})
      INSERT INTO reading (unit_id, time, hot_in, hot_out, cold_in, cold_out, hot_flow, cold_flow, flow_basis, batch_id)
        SELECT 1, i * 60000, 50 + i % 7, 40, 30, 40, 10, 10, 0, 1 FROM n`);
  });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** How many migrations a database has had, and a figure that every reading goes into. */
function stateOf(path: string): { migrations: number; readings: number; sum: number } {
  return inDatabase(path, (database) => ({
    migrations: database.prepare<[], number>('SELECT count(*) FROM _prisma_migrations').pluck().get()!,
    readings: database.prepare<[], number>('SELECT count(*) FROM reading').pluck().get()!,
    sum: database.prepare<[], number>('SELECT sum(time + hot_in) FROM reading').pluck().get()!,
  }));
}

describe('a migration killed anywhere', () => {
  it(`leaves the database as it was or at the newest schema, ${KILLS} times over`, async () => {
    const old = stateOf(base);
    const whole = freshCopy(base);
    // The first thing a command does with its database, and the only thing this one writes.
    const { worked } = await runWhole(['show', 'fleet'], whole);
    const newest = stateOf(whole.path);
    expect(old.migrations).toBe(1);
    expect(newest).toMatchObject({ readings: READINGS, sum: old.sum });
    const schema = inDatabase(whole.path, schemaOf);
    whole.remove();
    let midway = 0;
    const killed = await killAtMoments({ kills: KILLS, seed: SEED, worked }, async (after) => {
      const copy = freshCopy(base);
      const run = await runKilled(['show', 'fleet'], { ...copy, after });
      const state = stateOf(copy.path);
      expect([old, newest]).toContainEqual(state);
      expect(verifyDatabase(copy.url).problems).toBe(0);
      if (run.isKilled && state.migrations === 1) midway++;
      for (const name of copiesIn(copy.folder)) {
        expect(stateOf(join(copy.folder, name))).toEqual(old);
        expect(verifyDatabase(`file:${join(copy.folder, name)}`).problems).toBe(0);
      }
      migrateSqlite(copy.url);
      expect(stateOf(copy.path)).toEqual(newest);
      expect(inDatabase(copy.path, schemaOf)).toEqual(schema);
      expect(inDatabase(copy.path, contentOf).unit).toEqual([{ id: 1, tag: 'E-1', site_id: 1 }]);
      expect(copiesIn(copy.folder).length).toBeGreaterThan(0);
      copy.remove();
      return run;
    });
    expect(killed).toBe(KILLS);
    expect(midway).toBeGreaterThanOrEqual(KILLS * 0.3);
  }, 600_000);
});

function copiesIn(folder: string): string[] {
  return readdirSync(folder).filter((name) => name.includes('.before-') && name.endsWith('.db'));
}
