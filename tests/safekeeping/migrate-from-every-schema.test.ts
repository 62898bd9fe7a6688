import { cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Migrated, migrateSqlite } from '@/prisma/migrate';
import { contentOf, fillTables, ROWS, schemaOf } from './fill-tables';

const MIGRATIONS = join('prisma', 'migrations', 'sqlite');
const NAMES = readdirSync(MIGRATIONS, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name)
  .sort();

let folder: string;
let path: string;
let url: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-schemas-'));
  path = join(folder, 'plant.db');
  url = `file:${path}`;
});
afterEach(() => rmSync(folder, { recursive: true }));

/** A folder with the first migrations only. */
function firstMigrations(count: number): string {
  const target = mkdtempSync(join(folder, 'migrations-'));
  for (const name of NAMES.slice(0, count)) {
    cpSync(join(MIGRATIONS, name), join(target, name), { recursive: true });
  }
  return target;
}

function withMigration(sql: string, name = '99990101000000_test'): string {
  const target = firstMigrations(NAMES.length);
  mkdirSync(join(target, name));
  writeFileSync(join(target, name, 'migration.sql'), sql);
  return target;
}

/** A database as the first migrations made it, with rows in every table. */
function filledDatabase(count: number): ReturnType<typeof contentOf> {
  migrateSqlite(url, { folder: firstMigrations(count) });
  const database = new Database(path);
  fillTables(database);
  const content = contentOf(database);
  database.close();
  return content;
}

function look<T>(see: (database: Database.Database) => T, file = path): T {
  const database = new Database(file, { readonly: true });
  try {
    return see(database);
  } finally {
    database.close();
  }
}

function freshSchema(): unknown[] {
  const fresh = join(folder, 'fresh.db');
  migrateSqlite(`file:${fresh}`);
  return look(schemaOf, fresh);
}

/** The rows that were there before, with the columns that both schemas have. */
function kept(before: ReturnType<typeof contentOf>, after: ReturnType<typeof contentOf>): typeof before {
  return Object.fromEntries(
    Object.entries(before).map(([table, rows]) => [
      table,
      (after[table] ?? []).map((row) =>
        Object.fromEntries(Object.keys(rows[0]!).flatMap((name) => (name in row ? [[name, row[name]]] : []))),
      ),
    ]),
  );
}

/** Columns a migration took away on purpose. */
const DROPPED: Record<string, string[]> = { unit_result: ['clean_scale'] };

/** Tables a migration took away on purpose: daily figures are worked out anew from the readings, now into blocks. */
const DROPPED_TABLES = ['daily_result'];
const DAILY_ANEW = '20261130024902_large_fleets';

/** What is due after the migrations: from the beginning of its record, every unit whose daily figures went with their table. */
function dueAfter(before: ReturnType<typeof contentOf>, applied: readonly string[]): unknown[] {
  const due: Record<string, unknown>[] = before.unit_due!.map((row) => ({
    held_by: null,
    held_until: null,
    ...row,
  }));
  if (!applied.includes(DAILY_ANEW)) return due;
  const anew = { since: 0, mark: expect.stringMatching(/^[0-9a-f]{32}$/) };
  const withResult = new Set(before.unit_result!.map((row) => row.unit_id));
  return due.map((row) => (withResult.has(row.unit_id) ? { ...row, ...anew } : row));
}

function withoutDropped(content: ReturnType<typeof contentOf>): typeof content {
  const tables = Object.entries(content).filter(([table]) => !DROPPED_TABLES.includes(table));
  return Object.fromEntries(
    tables.map(([table, rows]) => [
      table,
      rows.map((row) =>
        Object.fromEntries(Object.entries(row).filter(([name]) => !DROPPED[table]?.includes(name))),
      ),
    ]),
  );
}

describe('a database of every earlier schema, with rows in every table', () => {
  for (let count = 1; count < NAMES.length; count++) {
    it(`is brought from ${NAMES[count - 1]} to the newest with every value it had`, () => {
      const before = filledDatabase(count);
      expect(Object.values(before).every((rows) => rows.length === ROWS)).toBe(true);
      const told: Migrated[] = [];
      expect(migrateSqlite(url, { onMigrated: (migrated) => told.push(migrated) })).toEqual(
        NAMES.slice(count),
      );

      const after = look(contentOf);
      expect(after.unit_due).toEqual(dueAfter(before, NAMES.slice(count)));
      const { unit_due: _, ...others } = withoutDropped(before);
      expect(kept(others, after)).toEqual(others);
      expect(after.unit_result).toHaveLength(ROWS);
      expect(look((database) => database.pragma('integrity_check', { simple: true }))).toBe('ok');
      expect(look((database) => database.pragma('foreign_key_check'))).toEqual([]);
      expect(look(schemaOf)).toEqual(freshSchema());

      const { safetyCopy } = told[0]!;
      expect(safetyCopy).toBe(join(folder, `plant.before-${NAMES[count]}.db`));
      expect(look(contentOf, safetyCopy!)).toEqual(before);
      expect(statSync(safetyCopy!).mode & 0o077).toBe(0);

      expect(migrateSqlite(url, { onMigrated: (migrated) => told.push(migrated) })).toEqual([]);
      expect(told).toHaveLength(1);
      expect(look(contentOf)).toEqual(after);
    });
  }

  it('has the planner’s statistics afterwards', () => {
    filledDatabase(1);
    migrateSqlite(url);
    const tables = look((database) =>
      database.prepare('SELECT DISTINCT tbl FROM sqlite_stat1 ORDER BY tbl').pluck().all(),
    );
    expect(tables).toContain('reading');
  });
});

describe('a migration that fails midway', () => {
  it('leaves the database as it was', () => {
    const before = filledDatabase(NAMES.length);
    const schema = look(schemaOf);
    const wrong = withMigration(
      'CREATE TABLE "brand_new" ("id" INTEGER PRIMARY KEY); DELETE FROM "unit_due"; UPDATE "no_such_table" SET a = 1;',
    );
    expect(() => migrateSqlite(url, { folder: wrong })).toThrow(
      /99990101000000_test failed .*no such table: no_such_table.* was undone/,
    );
    expect(look(contentOf)).toEqual(before);
    expect(look(schemaOf)).toEqual(schema);
    expect(migrateSqlite(url)).toEqual([]);
  });

  it('undoes the ones before it of the same start', () => {
    const before = filledDatabase(1);
    expect(() => migrateSqlite(url, { folder: withMigration('NONSENSE;') })).toThrow(/was undone/);
    expect(look(contentOf)).toEqual(before);
    expect(migrateSqlite(url)).toEqual(NAMES.slice(1));
  });

  it('is one that would leave references to nothing', () => {
    const before = filledDatabase(NAMES.length);
    const wrong = withMigration('DELETE FROM "unit" WHERE "id" = 1;');
    expect(() => migrateSqlite(url, { folder: wrong })).toThrow(/would refer to nothing/);
    expect(look(contentOf)).toEqual(before);
  });
});

describe('a table made anew by a migration', () => {
  it('takes no row of another table with it, whatever that does when its row is deleted', () => {
    const before = filledDatabase(NAMES.length);
    const children = before.planned_cleaning!.map(({ cleaning_id }) => cleaning_id);
    expect(children.slice(0, -1).every((id) => id !== null)).toBe(true);
    const anew = withMigration(`PRAGMA foreign_keys=OFF;
      CREATE TABLE "new_cleaning" AS SELECT * FROM "cleaning";
      DROP TABLE "cleaning"; ALTER TABLE "new_cleaning" RENAME TO "cleaning";
      CREATE UNIQUE INDEX "cleaning_key" ON "cleaning"("id"); PRAGMA foreign_keys=ON;`);
    migrateSqlite(url, { folder: anew });
    expect(look(contentOf).planned_cleaning).toEqual(before.planned_cleaning);
  });
});

describe('copies made before migrations', () => {
  it('are the last three, and none of a database without a row', () => {
    migrateSqlite(url, { folder: firstMigrations(1) });
    migrateSqlite(url);
    expect(copies()).toEqual([]);
    const database = new Database(path);
    fillTables(database);
    database.close();
    const target = firstMigrations(NAMES.length);
    for (let number = 1; number <= 5; number++) {
      const name = `9999010100000${number}_more`;
      mkdirSync(join(target, name));
      writeFileSync(
        join(target, name, 'migration.sql'),
        `CREATE TABLE "more_${number}" ("id" INTEGER PRIMARY KEY);`,
      );
      migrateSqlite(url, { folder: target });
    }
    expect(copies()).toEqual([3, 4, 5].map((number) => `plant.before-9999010100000${number}_more.db`));
  });

  it('are not written over by one of the same name', () => {
    const before = filledDatabase(1);
    cpSync(path, join(folder, 'old.db'));
    migrateSqlite(url);
    for (const ending of ['', '-wal', '-shm']) rmSync(`${path}${ending}`, { force: true });
    cpSync(join(folder, 'old.db'), path);
    migrateSqlite(url);
    expect(copies()).toEqual([`plant.before-${NAMES[1]}-2.db`, `plant.before-${NAMES[1]}.db`]);
    for (const name of copies()) expect(look(contentOf, join(folder, name))).toEqual(before);
  });
});

function copies(): string[] {
  return readdirSync(folder)
    .filter((name) => name.startsWith('plant.before-'))
    .sort();
}
