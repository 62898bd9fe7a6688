import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { analyse } from '@/lib/work/analyse';
import { closeContext, openContext } from '@/lib/work/context';
import { importReadings } from '@/lib/work/import-readings';
import { registerFleet } from '@/lib/work/register-fleet';
import { backUpAny, restoreAny, verifyAny } from '@/lib/work/safekeeping';
import { serverHealth } from '@/lib/work/server-health';
import { type EmbeddedServer, startEmbeddedPostgres } from '@/prisma/embedded-server';
import { readingsCsv } from '../support/api';
import { bytesOf } from '../support/readings-csv';
import { plainFleet } from '../support/units';

let server: EmbeddedServer;
let folder: string;
let url: string;
const at = (name: string) => server.url.replace(/\/postgres$/, `/${name}`);

beforeAll(async () => {
  server = await startEmbeddedPostgres({ settings: ['fsync=off'] });
  folder = mkdtempSync(join(tmpdir(), 'cleanby-postgres-safe-'));
  await run('postgres', 'CREATE DATABASE plant');
  url = at('plant');
  const context = await openContext(url);
  await registerFleet(context, plainFleet(['E-1', 'E-2']));
  await importReadings(context, { name: 'a.csv', source: bytesOf(readingsCsv('E-1', 24 * 10)) });
  await analyse(context);
  await closeContext(context);
});
afterAll(async () => {
  await server.stop();
  rmSync(folder, { recursive: true });
});

async function run(name: string, ...statements: string[]): Promise<void> {
  const client = new Client(at(name));
  await client.connect();
  for (const statement of statements) await client.query(statement);
  await client.end();
}

/** What a verification finds in a copy of the database after something was done to it. */
async function problemsOf(...damage: string[]): Promise<Record<string, string>> {
  await run('postgres', 'DROP DATABASE IF EXISTS damaged', 'CREATE DATABASE damaged TEMPLATE plant');
  await run('damaged', 'SET session_replication_role = replica', ...damage);
  const { checks } = await verifyAny(at('damaged'));
  const bad = checks.filter(({ problems }) => problems.length > 0);
  return Object.fromEntries(bad.map(({ name, problems }) => [name, problems.join('; ')]));
}

const refusal = async (address: string) =>
  openContext(address).then(
    () => 'opened',
    (error: Error) => error.message,
  );

describe('a verification on PostgreSQL', () => {
  it('finds nothing wrong with a sound database, by the same checks as on SQLite', async () => {
    const { checks, problems, file } = await verifyAny(url);
    expect({ problems, wrong: checks.filter((check) => check.wrong > 0) }).toEqual({
      problems: 0,
      wrong: [],
    });
    expect(file).not.toContain('password');
    expect(checks.find(({ name }) => name === 'readings')!.looked).toMatch(/^240 readings/);
  });

  it('finds what does not belong together', async () => {
    expect(
      await problemsOf(
        'UPDATE reading SET batch_id = 99 WHERE unit_id = 1',
        "UPDATE unit_result SET trend = '{' WHERE unit_id = 1",
        "INSERT INTO unit_due VALUES (99, 0, 'm', NULL, NULL)",
        "UPDATE unit_version SET document = '{' WHERE unit_id = 2",
        'DELETE FROM site',
        "UPDATE _prisma_migrations SET checksum = 'other'",
        "UPDATE daily_block SET figures = '\\x0102'",
      ),
    ).toMatchObject({
      readings: expect.stringContaining('240 readings of unit 1 and batch 99'),
      results: 'unit 1: its result is no JSON',
      'due for analysis': 'unit 99 is due and does not exist',
      datasheets: 'E-2, datasheet 1: no JSON',
      references: 'unit: 2 rows, each of which refers to no row of site',
      migrations: expect.stringContaining('another text'),
      'daily figures': expect.stringContaining('are cut'),
    });
  });
});

describe('a backup of a PostgreSQL database', () => {
  it('is a file of ours, and comes back as either kind of database', async () => {
    const file = join(folder, 'copy.db');
    const { verification } = await backUpAny({ file, databaseUrl: url });
    expect(verification.problems).toBe(0);
    expect(statSync(file).mode & 0o077).toBe(0);
    await expect(backUpAny({ file, databaseUrl: url })).rejects.toMatchObject({ code: 'conflict' });

    await run('postgres', 'CREATE DATABASE back');
    expect(await restoreAny(file, at('back'))).toMatchObject({ verification: { problems: 0 } });
    await expect(restoreAny(file, at('back'))).rejects.toMatchObject({ code: 'conflict' });
    const asFile = `file:${join(folder, 'back.db')}`;
    expect(await restoreAny(file, asFile)).toMatchObject({ verification: { problems: 0 } });
  });
});

describe('what a server refuses', () => {
  it('is said in words, with what to do, and never with the password', async () => {
    const port = new URL(url).port;
    expect(await refusal(at('nowhere'))).toMatch(
      /nowhere cannot be used: the server has no database of that name/,
    );
    expect(await refusal(url.replace(':password', ':wrong'))).toMatch(/does not let this user in/);
    expect(await refusal(url.replace(port, '1'))).toMatch(/no server answers there/);
    expect(await refusal('postgres://a b:c@[/x')).toMatch(/is no address/);
    expect(await refusal('mysql://a/b')).toMatch(/must name an SQLite file.* or a PostgreSQL database/);
    await run('postgres', "CREATE ROLE guest LOGIN PASSWORD 'secret'");
    const guest = await refusal(url.replace('postgres:password', 'guest:secret'));
    expect(guest).toMatch(/the user may not do that/);
    expect(guest).not.toContain('secret');
  });

  it('shows in its health', async () => {
    const written = readdirSync(join(import.meta.dirname, '../../prisma/migrations/postgres'));
    expect(await serverHealth(url)).toMatchObject({
      status: 'ok',
      database: 'ok',
      migrations: written.length,
    });
    await run('postgres', 'ALTER DATABASE back SET default_transaction_read_only = on');
    expect(await serverHealth(at('back'))).toMatchObject({ status: 'failing', database: 'read-only' });
    expect(await serverHealth(at('nowhere'))).toMatchObject({ status: 'failing', database: 'unreadable' });
  });
});
