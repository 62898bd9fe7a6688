import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { migrateSqlite } from './migrate';
import { openSchemaEngine, sqlBetween } from './schema-engine';

// npm run db:new NAME: writes the migration from what the migrations so far make to what the schema says.
const here = fileURLToPath(new URL('.', import.meta.url));
const name = process.argv[2];
if (name === undefined || !/^[a-z][a-z0-9_]*$/.test(name)) {
  console.error('Give the migration a name in lower case with underscores: npm run db:new add_outages');
  process.exit(2);
}

const folder = await mkdtemp(join(tmpdir(), 'cleanby-schema-'));
const url = `file:${join(folder, 'now.db')}`;
migrateSqlite(url);
const engine = await openSchemaEngine(url);
const content = await readFile(join(here, 'schema.prisma'), 'utf8');
const files = [{ path: 'schema.prisma', content }];
const sql = await sqlBetween(
  engine,
  { tag: 'schemaDatasource', files, configDir: here },
  { tag: 'schemaDatamodel', files },
);
engine.free();
await rm(folder, { recursive: true });
if (sql.trim() === '' || sql.includes('This is an empty migration')) {
  console.error('The schema and its migrations agree: nothing to write.');
  process.exit(0);
}
const stamp = new Date().toISOString().replace(/\D/g, '').slice(0, 14);
const target = join(here, 'migrations', 'sqlite', `${stamp}_${name}`);
await mkdir(target, { recursive: true });
await writeFile(join(target, 'migration.sql'), sql);
console.error(`Wrote ${target}/migration.sql. Read it before you commit it.`);
