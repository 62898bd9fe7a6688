import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Client } from 'pg';
import { derivePostgresSchema } from './derive-postgres.mjs';
import { startEmbeddedPostgres } from './embedded-server';
import { migrateSqlite } from './migrate';
import { migratePostgres } from './migrate-postgres';
import { completePostgresSql } from './postgres-sql';
import { sqlToSchema } from './schema-engine';

// npm run db:new NAME: writes the migrations of both databases from what the migrations so far make to what the schema says.
const here = fileURLToPath(new URL('.', import.meta.url));
const name = process.argv[2];
if (name === undefined || !/^[a-z][a-z0-9_]*$/.test(name)) {
  console.error('Give the migration a name in lower case with underscores: npm run db:new add_outages');
  process.exit(2);
}

const schema = await readFile(join(here, 'schema.prisma'), 'utf8');
const stamp = new Date().toISOString().replace(/\D/g, '').slice(0, 14);
const written = [
  await write('sqlite', await sqliteChange()),
  await write('postgres', completePostgresSql(await postgresChange())),
];
if (!written.includes(true)) console.error('The schema and its migrations agree: nothing to write.');

async function sqliteChange(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'cleanby-schema-'));
  try {
    const url = `file:${join(folder, 'now.db')}`;
    migrateSqlite(url);
    return await sqlToSchema(url, schema);
  } finally {
    await rm(folder, { recursive: true });
  }
}

async function postgresChange(): Promise<string> {
  const server = await startEmbeddedPostgres({ settings: ['fsync=off'] });
  try {
    const client = new Client(server.url);
    await client.connect();
    await migratePostgres(client);
    await client.end();
    return await sqlToSchema(server.url, derivePostgresSchema(schema));
  } finally {
    await server.stop();
  }
}

async function write(provider: string, sql: string): Promise<boolean> {
  if (sql.trim() === '' || sql.includes('This is an empty migration')) return false;
  const target = join(here, 'migrations', provider, `${stamp}_${name}`);
  await mkdir(target, { recursive: true });
  await writeFile(join(target, 'migration.sql'), sql);
  console.error(`Wrote ${target}/migration.sql. Read it before you commit it.`);
  return true;
}
