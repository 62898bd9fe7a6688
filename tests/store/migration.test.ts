import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { migrateSqlite } from '@/prisma/migrate';
import { sqlToSchema } from '@/prisma/schema-engine';

let folder: string;
let url: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-migration-'));
  url = `file:${join(folder, 'cleanby.db')}`;
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('migrations', () => {
  it('make exactly the tables that the schema describes', async () => {
    migrateSqlite(url);
    expect(await sqlToSchema(url, readFileSync('prisma/schema.prisma', 'utf8'))).toContain(
      'This is an empty migration',
    );
  });

  it('are applied once', () => {
    expect(migrateSqlite(url).length).toBeGreaterThan(0);
    expect(migrateSqlite(url)).toEqual([]);
  });

  it('refuse a database that was migrated from another text', () => {
    migrateSqlite(url);
    const database = new Database(join(folder, 'cleanby.db'));
    database.prepare("UPDATE _prisma_migrations SET checksum = 'other'").run();
    database.close();
    expect(() => migrateSqlite(url)).toThrow(/another text/);
  });

  it('keep readings in tables without a row number', () => {
    migrateSqlite(url);
    const database = new Database(join(folder, 'cleanby.db'));
    const tables = database
      .prepare<[], { name: string }>('SELECT name FROM pragma_table_list WHERE wr = 1 ORDER BY name')
      .all()
      .map(({ name }) => name);
    database.close();
    expect(tables).toEqual(['reading', 'reading_before']);
  });
});
