import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { allResults } from '@/lib/store/entities/results';
import { analyse } from '@/lib/work/analyse';
import { closeContext, openContext } from '@/lib/work/context';
import { readUnit } from '@/lib/work/read-unit';
import { plainUnit } from '../support/units';

const FIRST = '20261125000000_init';
const START = Date.parse('2026-03-01T00:00:00Z');
const HOUR = 3_600_000;
const HOURS = 20 * 24;

let folder: string;
let path: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-old-'));
  path = join(folder, 'cleanby.db');
});
afterEach(() => rmSync(folder, { recursive: true }));

/** A database as the first migration made it: one unit with readings and a result of that time. */
function oldDatabase(): void {
  const database = new Database(path);
  const sql = readFileSync(join('prisma', 'migrations', 'sqlite', FIRST, 'migration.sql'), 'utf8');
  database.exec(sql);
  database.exec(`CREATE TABLE "_prisma_migrations" (
    "id" TEXT PRIMARY KEY NOT NULL, "checksum" TEXT NOT NULL, "finished_at" DATETIME, "migration_name" TEXT NOT NULL,
    "logs" TEXT, "rolled_back_at" DATETIME, "started_at" DATETIME NOT NULL DEFAULT current_timestamp,
    "applied_steps_count" INTEGER UNSIGNED NOT NULL DEFAULT 0)`);
  database
    .prepare('INSERT INTO _prisma_migrations (id, checksum, migration_name) VALUES (?, ?, ?)')
    .run('first', createHash('sha256').update(sql).digest('hex'), FIRST);
  database.prepare(`INSERT INTO site VALUES (1, 'Old works', 'Europe/Lisbon', 'EUR')`).run();
  database.prepare(`INSERT INTO unit (id, tag, site_id) VALUES (1, 'E-1', 1)`).run();
  database
    .prepare('INSERT INTO unit_version (unit_id, number, document, created_at) VALUES (1, 1, ?, ?)')
    .run(JSON.stringify(plainUnit('E-1', { clean: 'learned' })), START);
  database
    .prepare(`INSERT INTO import_batch (id, source, created_at, read, added, replaced, unchanged, set_aside)
      VALUES (1, 'old.csv', ?, ?, ?, 0, 0, 0)`)
    .run(START, HOURS, HOURS);
  const reading = database.prepare(`INSERT INTO reading
    (unit_id, time, hot_in, hot_out, cold_in, cold_out, hot_flow, cold_flow, flow_basis, batch_id)
    VALUES (1, ?, ?, ?, ?, ?, ?, ?, 0, 1)`);
  for (let hour = 0; hour < HOURS; hour++) {
    // A little movement, or the sensors would count as frozen.
    const shift = ((hour % 7) - 3) / 20;
    reading.run(
      START + hour * HOUR,
      50 + shift,
      40 + shift,
      30 + shift,
      40 + shift,
      10 + shift / 10,
      10 - shift / 10,
    );
  }
  database
    .prepare(`INSERT INTO unit_result
      (unit_id, as_of, computed_at, method_version, unit_version, clean_scale, nominal, result, trend)
      VALUES (1, ?, ?, 1, 1, 1.25, 0, '{"tag":"E-1"}', '{"cycles":[],"limits":[]}')`)
    .run(START + (HOURS - 1) * HOUR, START);
  database.close();
}

describe('a database of the first version', () => {
  it('is brought up to date with its units, readings and results, and worked out anew', async () => {
    oldDatabase();
    const context = await openContext(`file:${path}`);
    const { entities, series } = context.store;
    const before = (await allResults(entities)).get(1)!;
    expect(before).toMatchObject({ basis: [], unitVersion: 1, result: { tag: 'E-1' } });
    expect((await series.readReadings(1, 0, Number.MAX_SAFE_INTEGER)).time.length).toBe(HOURS);

    expect((await analyse(context)).analysed).toEqual(['E-1']);
    const after = (await allResults(entities)).get(1)!;
    expect(after.basis).toMatchObject([{ from: 0, unitVersion: 1, reference: 1 }]);
    const unit = (await readUnit(context, 'E-1', { from: null, to: null }))!;
    expect(unit.evaluation.reasons.filter((mask) => mask === 0).length).toBeGreaterThan(HOURS / 2);
    expect(unit.references).toHaveLength(1);
    expect((await analyse(context)).analysed).toEqual([]);
    await closeContext(context);
  });
});
