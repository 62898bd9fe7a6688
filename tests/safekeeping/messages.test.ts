import { chmodSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { PrismaClient } from '@/generated/sqlite/client';
import { databaseError, errorOfDatabase } from '@/lib/store/safekeeping/database-error';
import { openSqlite } from '@/lib/store/series/open-sqlite';
import { analyse } from '@/lib/work/analyse';
import { backUp } from '@/lib/work/back-up';
import { type Context, closeContext, openContext } from '@/lib/work/context';
import { importReadings } from '@/lib/work/import-readings';
import { verifyDatabase } from '@/lib/work/verify-database';
import { readingsCsv } from '../support/api';
import { runCleanby } from '../support/run-cleanby';
import { asStranger } from './as-stranger';
import { bytesOf, inDatabase, makePlant, type Plant } from './plant';
import { runWithFileLimit } from './run-with-file-limit';

/** Pages a connection of the store may have before SQLite says that the disk is full; null: as many as it wants. */
const limit = vi.hoisted(() => ({ pages: null as number | null }));
vi.mock('@/lib/store/series/open-sqlite', async (original) => {
  const real = (await original()) as { openSqlite: typeof openSqlite };
  return {
    openSqlite: (path: string) => {
      const database = real.openSqlite(path);
      if (limit.pages !== null) database.pragma(`max_page_count = ${limit.pages}`);
      return database;
    },
  };
});

let plant: Plant;
beforeEach(async () => {
  limit.pages = null;
  plant = await makePlant({ hours: 240, analysed: false });
});
afterEach(() => plant.remove());

/** The user's message a piece of work ends with; whatever else it throws is thrown on. */
async function refusalOf(work: () => unknown): Promise<string> {
  try {
    await work();
  } catch (error) {
    const known = errorOfDatabase(error, plant.path);
    if (known === null) throw error;
    expect(known.code).toBe('database-unusable');
    return known.message;
  }
  throw new Error('nothing was refused');
}

function counts(): Record<string, unknown> {
  return inDatabase(
    plant.path,
    (database) =>
      database
        .prepare(
          'SELECT (SELECT count(*) FROM reading) AS readings, (SELECT count(*) FROM import_batch) AS batches, (SELECT count(*) FROM unit_due) AS due',
        )
        .get() as Record<string, unknown>,
  );
}

async function withContext<T>(work: (context: Context) => Promise<T>): Promise<T> {
  const context = await openContext(plant.url);
  try {
    return await work(context);
  } finally {
    await closeContext(context);
  }
}

const takeMore = (context: Context) =>
  importReadings(context, {
    name: 'more.csv',
    source: bytesOf(readingsCsv('E-1', 20_000, '2020-01-01T00:00:00Z')),
  });

const LOST_NOTHING = { readings: 720, batches: 3, due: 3 };
const DISK_FULL =
  /^The database \S+plant\.db cannot be used: the disk is full.*undone.*make room and try again/;

describe('a full disk', () => {
  it('during an import is told as such, and nothing of that batch is in', async () => {
    limit.pages = inDatabase(plant.path, (it) => it.pragma('page_count', { simple: true }) as number) + 20;
    expect(await refusalOf(() => withContext(takeMore))).toMatch(DISK_FULL);
    limit.pages = null;
    expect(counts()).toEqual(LOST_NOTHING);
    expect(verifyDatabase(plant.url).problems).toBe(0);
    expect((await withContext(takeMore)).added).toBe(20_000);
  });

  it('during an analysis is told as such, and what was due stays due', async () => {
    limit.pages = 1;
    expect(await refusalOf(() => withContext((context) => analyse(context)))).toMatch(DISK_FULL);
    limit.pages = null;
    expect(counts()).toEqual(LOST_NOTHING);
    expect((await withContext((context) => analyse(context))).analysed).toEqual(['E-1', 'E-2', 'E-3']);
  });

  it('met by a command that writes for real is its last line, without a stack', async () => {
    const file = join(plant.folder, 'more.csv');
    writeFileSync(file, readingsCsv('E-1', 20_000, '2020-01-01T00:00:00Z'));
    const run = await runWithFileLimit(['import', file], { url: plant.url, kibibytes: 600 });
    expect(run.stderr.trimEnd().split('\n').at(-1)).toMatch(DISK_FULL);
    expect(run.stderr).not.toMatch(/\n\s+at /);
    expect(run.code).toBe(1);
    expect(counts()).toEqual(LOST_NOTHING);
    expect(verifyDatabase(plant.url).problems).toBe(0);
  });

  it('during a backup leaves neither a file nor a part of one', async () => {
    const file = join(plant.folder, 'copy.db');
    const run = await runWithFileLimit(['backup', file], { url: plant.url, kibibytes: 100 });
    expect(run.stderr.trimEnd().split('\n').at(-1)).toMatch(/copy\.db\S* cannot be used: the disk is full/);
    expect(run.code).toBe(1);
    expect(readdirSync(plant.folder).filter((name) => name.startsWith('copy'))).toEqual([]);
  });

  it('before a migration keeps the database as it was, since its copy cannot be made', async () => {
    // As if the newest migration had not been applied yet: its own tables are not looked at.
    inDatabase(plant.path, (database) =>
      database.exec(
        'DELETE FROM _prisma_migrations WHERE migration_name = (SELECT max(migration_name) FROM _prisma_migrations)',
      ),
    );
    const before = counts();
    const run = await runWithFileLimit(['show', 'fleet'], { url: plant.url, kibibytes: 100 });
    expect(run.stderr.trimEnd().split('\n').at(-1)).toMatch(DISK_FULL);
    expect(counts()).toEqual(before);
    expect(readdirSync(plant.folder).filter((name) => name.includes('before'))).toEqual([]);
  });
});

describe('a database that may not be written', () => {
  const NOT_WRITABLE =
    /plant\.db cannot be used: it may not be written or opened.*Make the file and its folder writable/;

  it('is named with the remedy when it is opened', async () => {
    chmodSync(plant.path, 0o444);
    chmodSync(plant.folder, 0o555);
    expect(await asStranger(() => refusalOf(() => openContext(plant.url)))).toMatch(NOT_WRITABLE);
    chmodSync(plant.folder, 0o755);
  });

  it('and may not be read either', async () => {
    chmodSync(plant.path, 0o000);
    chmodSync(plant.folder, 0o755);
    expect(await asStranger(() => refusalOf(() => openContext(plant.url)))).toMatch(NOT_WRITABLE);
    expect(await asStranger(() => refusalOf(() => verifyDatabase(plant.url)))).toMatch(NOT_WRITABLE);
  });

  it('is a backup too, in a folder of somebody else', async () => {
    const folder = join(plant.folder, 'theirs');
    mkdirSync(folder, { mode: 0o555 });
    chmodSync(plant.folder, 0o777);
    chmodSync(plant.path, 0o666);
    const file = join(folder, 'copy.db');
    const message = await asStranger(() => refusalOf(() => backUp({ file, databaseUrl: plant.url })));
    expect(message).toMatch(/theirs\/copy\.db cannot be used: it may not be written/);
  });

  it('is a folder', async () => {
    expect(await refusalOf(() => openContext(`file:${plant.folder}`))).toMatch(
      /may not be written or opened/,
    );
  });
});

describe('a locked database', () => {
  it('is told as such, not as busy', async () => {
    const holder = new Database(plant.path);
    holder.exec('BEGIN IMMEDIATE');
    const message = await refusalOf(() => new Database(plant.path, { timeout: 0 }).exec('BEGIN IMMEDIATE'));
    holder.close();
    expect(message).toMatch(/plant\.db cannot be used: another program has it locked.*wait until/);
  });
});

describe('what SQLite refuses the ORM', () => {
  const add = (entities: PrismaClient, name: string) =>
    entities.site.create({ data: { name, timeZone: 'UTC', currency: 'EUR' } });

  it('is told in the same words: a lock', async () => {
    const entities = plainClient();
    const holder = new Database(plant.path);
    holder.exec('BEGIN IMMEDIATE');
    const message = await refusalOf(() => add(entities, 'North'));
    holder.close();
    await entities.$disconnect();
    expect(message).toMatch(/another program has it locked/);
  });

  it('is told in the same words: a full disk', async () => {
    const entities = plainClient();
    await entities.$queryRawUnsafe('PRAGMA max_page_count = 1');
    const message = await refusalOf(() => add(entities, 'x'.repeat(20_000)));
    await entities.$disconnect();
    expect(message).toMatch(DISK_FULL);
  });

  function plainClient(): PrismaClient {
    return new PrismaClient({ adapter: new PrismaBetterSqlite3({ url: plant.url, timeout: 0 }) });
  }
});

describe('a damaged database', () => {
  it('is told as such, with what to do, and is left as it is', async () => {
    const bytes = readFileSync(plant.path);
    bytes.fill(0x5a, 4096, bytes.length - 4096);
    writeFileSync(plant.path, bytes);
    const run = await runCleanby(['show', 'fleet'], plant.url);
    expect(run.code).toBe(1);
    expect(run.stderr.trimEnd().split('\n').at(-1)).toMatch(
      /plant\.db cannot be used: the file is damaged .*restore FILE \(database disk image is malformed\)$/,
    );
    expect(run.stderr).not.toMatch(/\n\s+at /);
    expect(readFileSync(plant.path).equals(bytes)).toBe(true);
  });

  it('is none at all where the file is something else', async () => {
    const path = join(plant.folder, 'notes.txt');
    writeFileSync(path, 'Not a database, but notes of the last shift.\n'.repeat(50));
    expect(await refusalOf(() => openContext(`file:${path}`))).toMatch(
      /not an SQLite database.*Name the right file/,
    );
    expect(readFileSync(path, 'utf8')).toMatch(/^Not a database/);
  });
});

describe('a database from elsewhere', () => {
  it('is refused where a newer version wrote it, with the remedy', async () => {
    inDatabase(plant.path, (database) =>
      database.exec(
        "INSERT INTO _prisma_migrations (id, checksum, migration_name) VALUES ('z', 'z', '99990101000000_later')",
      ),
    );
    expect(await refusalOf(() => openContext(plant.url))).toMatch(
      /newer version of Cleanby \(unknown migration 99990101000000_later\): start that version/,
    );
  });

  it('is refused where its folder has no journal to share', async () => {
    // SQLite keeps a journal of its own for what is only in memory, as it does on a network drive.
    expect(await refusalOf(() => openSqlite(':memory:'))).toMatch(
      /network drives. Put the database on a disk of this/,
    );
  });
});

describe('an error that is no matter of the database', () => {
  it('is not taken for one', () => {
    expect(databaseError(new TypeError('x is not a function'), 'a.db')).toBeNull();
    expect(
      databaseError(Object.assign(new Error('near "SELEC"'), { code: 'SQLITE_ERROR' }), 'a.db'),
    ).toBeNull();
    const missing = Object.assign(new Error('no such file'), { code: 'ENOENT' });
    expect(errorOfDatabase(missing, 'a.db')).toBeNull();
  });
});
