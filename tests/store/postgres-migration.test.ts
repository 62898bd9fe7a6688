import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from 'pg';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { derivePostgresSchema } from '@/prisma/derive-postgres.mjs';
import { type EmbeddedServer, startEmbeddedPostgres } from '@/prisma/embedded-server';
import { appliedPostgres, dataTablesPostgres, migratePostgres } from '@/prisma/migrate-postgres';
import { migrationsFolder } from '@/prisma/migration-files';
import { sqlToSchema } from '@/prisma/schema-engine';

let server: EmbeddedServer;
let url: string;
let client: Client;
let folder: string;

beforeAll(async () => {
  server = await startEmbeddedPostgres({ settings: ['fsync=off'] });
});
afterAll(() => server.stop());
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-migrations-'));
  await inServer(
    'DROP DATABASE IF EXISTS plant WITH (FORCE)',
    "CREATE DATABASE plant TEMPLATE template0 ENCODING 'UTF8' LOCALE_PROVIDER icu ICU_LOCALE 'en'",
  );
  url = server.url.replace(/\/postgres$/, '/plant');
  client = new Client(url);
  await client.connect();
});
afterEach(async () => {
  await client.end();
  rmSync(folder, { recursive: true });
});

async function inServer(...statements: string[]): Promise<void> {
  const administrator = new Client(server.url);
  await administrator.connect();
  for (const statement of statements) await administrator.query(statement);
  await administrator.end();
}

async function values(sql: string): Promise<unknown[]> {
  const { rows } = await client.query({ text: sql, rowMode: 'array' });
  return rows.flat();
}

/** The project's migrations and one more. */
function withMigration(sql: string): string {
  cpSync(migrationsFolder('postgres'), folder, { recursive: true });
  mkdirSync(join(folder, '29990101000000_more'));
  writeFileSync(join(folder, '29990101000000_more', 'migration.sql'), sql);
  return folder;
}

describe('migrations of PostgreSQL', () => {
  it('make exactly the tables that the schema describes, also once readings have parts', async () => {
    await migratePostgres(client);
    expect(await sqlToSchema(url, derivePostgresSchema())).toContain('This is an empty migration');
    await client.query('CREATE TABLE reading_2026_03 PARTITION OF reading FOR VALUES FROM (0) TO (1000)');
    expect(await sqlToSchema(url, derivePostgresSchema())).toContain('This is an empty migration');
    expect(await dataTablesPostgres(client)).not.toContain('reading_2026_03');
    await client.query('ALTER TABLE site DROP COLUMN currency');
    expect(await sqlToSchema(url, derivePostgresSchema())).toContain('currency');
  });

  it('order every text by its bytes, whatever the collation of the database', async () => {
    await migratePostgres(client);
    const others = await values(
      `SELECT table_name || '.' || column_name FROM information_schema.columns
       WHERE table_schema = 'public' AND table_name <> '_prisma_migrations' AND data_type = 'text'
         AND collation_name IS DISTINCT FROM 'C'`,
    );
    expect(others).toEqual([]);
    for (const name of ['a', 'B', 'é', 'z'])
      await client.query('INSERT INTO setting (key, value) VALUES ($1, $1)', [name]);
    expect(await values('SELECT key FROM setting ORDER BY key')).toEqual(['B', 'a', 'z', 'é']);
    expect(await values("SELECT x FROM (VALUES ('a'), ('B')) AS v (x) ORDER BY x")).toEqual(['a', 'B']);
  });

  it('keep readings in parts by time, and figures beside their rows as they are', async () => {
    await migratePostgres(client);
    expect(await values(`SELECT pg_get_partkeydef('reading'::regclass)`)).toEqual(['RANGE ("time")']);
    expect(
      await values(
        `SELECT attstorage FROM pg_attribute WHERE attrelid = 'daily_block'::regclass AND attname = 'figures'`,
      ),
    ).toEqual(['e']);
  });

  it('are applied once, by several starts at the same time too', async () => {
    const others = await Promise.all(
      [1, 2, 3].map(async () => {
        const other = new Client(url);
        await other.connect();
        return other;
      }),
    );
    const applied = await Promise.all(others.map((other) => migratePostgres(other)));
    await Promise.all(others.map((other) => other.end()));
    expect(applied.filter((names) => names.length > 0)).toHaveLength(1);
    expect(await migratePostgres(client)).toEqual([]);
    expect((await appliedPostgres(client)).size).toBe(applied.flat().length);
  });

  it('refuse a database that was migrated from another text, or by a newer version', async () => {
    await migratePostgres(client, { folder: withMigration('CREATE TABLE more (id INTEGER)') });
    await expect(migratePostgres(client)).rejects.toMatchObject({ refusal: 'newer' });
    await client.query("UPDATE _prisma_migrations SET checksum = 'other' WHERE migration_name LIKE '2999%'");
    await expect(migratePostgres(client, { folder })).rejects.toMatchObject({ refusal: 'other-text' });
  });

  it('leave everything as it was where one fails', async () => {
    const wrong = withMigration('CREATE TABLE more (id INTEGER); SELECT nothing FROM nowhere;');
    await expect(migratePostgres(client, { folder: wrong })).rejects.toMatchObject({
      refusal: 'failed',
      message: expect.stringMatching(
        /29990101000000_more failed \(relation "nowhere" does not exist\) and was undone/,
      ),
    });
    expect(await dataTablesPostgres(client)).toEqual([]);
    expect((await appliedPostgres(client)).size).toBe(0);
    expect((await migratePostgres(client)).length).toBeGreaterThan(0);
  });

  it('refuse a database that cannot hold every letter', async () => {
    await inServer(
      'DROP DATABASE IF EXISTS narrow',
      "CREATE DATABASE narrow TEMPLATE template0 ENCODING 'LATIN1' LOCALE 'C'",
    );
    const narrow = new Client(server.url.replace(/\/postgres$/, '/narrow'));
    await narrow.connect();
    await expect(migratePostgres(narrow)).rejects.toMatchObject({ refusal: 'server' });
    await narrow.end();
  });
});
