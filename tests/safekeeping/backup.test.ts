import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { AppError, type ErrorCode } from '@/lib/contract/app-error';
import { backUp } from '@/lib/work/back-up';
import { closeContext, openContext } from '@/lib/work/context';
import { restore } from '@/lib/work/restore';
import { verifyDatabase } from '@/lib/work/verify-database';
import { runCleanby, startCleanby } from '../support/run-cleanby';
import { contentOf } from './fill-tables';
import { writeManyFiles } from './many-files';
import { inDatabase, makePlant, type Plant } from './plant';

const BACKUPS = 20;
const ROWS = 40;

let plant: Plant;
let folder: string;
beforeAll(async () => {
  plant = await makePlant({ hours: 240 });
});
afterAll(() => plant.remove());
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-backup-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const content = (path: string) => inDatabase(path, contentOf);

function refusal(code: ErrorCode, message: RegExp, work: () => unknown): void {
  try {
    work();
  } catch (error) {
    expect(error).toBeInstanceOf(AppError);
    expect((error as AppError).code).toBe(code);
    expect((error as AppError).message).toMatch(message);
    return;
  }
  throw new Error('nothing was refused');
}

describe('a backup', () => {
  it('holds what the database holds, is readable by its owner only, and is one file', () => {
    const file = join(folder, 'copy.db');
    const { bytes, verification } = backUp({ file, databaseUrl: plant.url });
    expect(content(file)).toEqual(content(plant.path));
    expect(verification.problems).toBe(0);
    expect(statSync(file)).toMatchObject({ size: bytes });
    expect(statSync(file).mode & 0o077).toBe(0);
    expect(readdirSync(folder)).toEqual(['copy.db']);
  });

  it('is not written over another one, unless it is meant to be', () => {
    const file = join(folder, 'copy.db');
    writeFileSync(file, 'something else');
    refusal('conflict', /copy\.db exists already: name another file, or add --replace/, () =>
      backUp({ file, databaseUrl: plant.url }),
    );
    expect(readFileSync(file, 'utf8')).toBe('something else');
    backUp({ file, replace: true, databaseUrl: plant.url });
    expect(verifyDatabase(`file:${file}`).problems).toBe(0);
  });

  it('never takes the place of the database itself', () => {
    refusal('conflict', /is the database itself/, () =>
      backUp({ file: plant.path, replace: true, databaseUrl: plant.url }),
    );
  });

  it('is not made of a database that is not sound, and the last one stays', () => {
    const path = join(folder, 'bad.db');
    const file = join(folder, 'copy.db');
    writeFileSync(path, readFileSync(plant.path));
    inDatabase(path, (database) => database.exec('UPDATE reading SET batch_id = 99'));
    writeFileSync(file, 'the last backup');
    refusal('database-unusable', /is not sound and was not backed up .*earlier backups are untouched/, () =>
      backUp({ file, replace: true, databaseUrl: `file:${path}` }),
    );
    expect(readFileSync(file, 'utf8')).toBe('the last backup');
  });

  it('needs a database and a folder', () => {
    refusal('not-found', /There is no database/, () =>
      backUp({ file: join(folder, 'copy.db'), databaseUrl: `file:${folder}/none.db` }),
    );
    refusal('not-found', /There is no folder .*make it first/, () =>
      backUp({ file: join(folder, 'no', 'copy.db'), databaseUrl: plant.url }),
    );
    expect(existsSync(join(folder, 'none.db'))).toBe(false);
  });
});

describe('backups while another process imports without pause', () => {
  it(`hold whole batches only, and every one acknowledged before, ${BACKUPS} times over`, async () => {
    const path = join(folder, 'busy.db');
    writeFileSync(path, readFileSync(plant.path));
    const before = inDatabase(path, batchesOf).length;
    const files = writeManyFiles(folder, { tag: 'E-2', files: 3000, rows: ROWS });
    const writer = startCleanby(['import', ...files], `file:${path}`);
    const ended = once(writer, 'exit');
    let acknowledged = 0;
    writer.stderr!.on('data', (data: Buffer) => {
      acknowledged += data.toString().split('rows read').length - 1;
    });
    let fewest = 0;
    for (let i = 0; i < BACKUPS; i++) {
      await moreThan(writer, ended, () => acknowledged > fewest + 1);
      fewest = acknowledged;
      const file = join(folder, `copy-${i}.db`);
      expect(backUp({ file, databaseUrl: `file:${path}` }).verification.problems).toBe(0);
      const batches = inDatabase(file, batchesOf);
      expect(batches.length - before).toBeGreaterThanOrEqual(fewest);
      expect(batches.map(({ id }) => id)).toEqual(batches.map((_, index) => index + 1));
      expect(batches.slice(before).every(({ readings }) => readings === ROWS)).toBe(true);
    }
    expect(writer.exitCode).toBeNull();
    writer.kill('SIGKILL');
    await ended;

    const last = join(folder, `copy-${BACKUPS - 1}.db`);
    const restored = join(folder, 'new', 'plant.db');
    restore(last, `file:${restored}`);
    expect(content(restored)).toEqual(content(last));
  }, 120_000);
});

function batchesOf(database: Database.Database) {
  return database
    .prepare<[], { id: number; readings: number }>(
      'SELECT id, (SELECT count(*) FROM reading WHERE batch_id = import_batch.id) AS readings FROM import_batch ORDER BY id',
    )
    .all();
}

/** Waits for what the other process says until it has said enough. */
async function moreThan(
  child: ChildProcess,
  ended: Promise<unknown>,
  isEnough: () => boolean,
): Promise<void> {
  while (!isEnough()) {
    if (child.exitCode !== null) throw new Error(`the process ended with ${child.exitCode}`);
    await Promise.race([once(child.stderr!, 'data'), ended]);
  }
}

describe('a restore', () => {
  let copy: string;
  beforeEach(() => {
    copy = join(folder, 'copy.db');
    backUp({ file: copy, databaseUrl: plant.url });
  });

  it('makes the database anew where there is none, in a folder that need not exist', async () => {
    const url = `file:${join(folder, 'new', 'plant.db')}`;
    expect(restore(copy, url)).toMatchObject({ migrated: [], verification: { problems: 0 } });
    expect(readdirSync(join(folder, 'new'))).toEqual(['plant.db']);
    expect(content(join(folder, 'new', 'plant.db'))).toEqual(content(plant.path));
    const context = await openContext(url);
    expect(await context.store.series.newestReadings()).toEqual(
      new Map([1, 2, 3].map((id) => [id, expect.any(Number)])),
    );
    await closeContext(context);
  });

  it('takes the place of a database without a row, and of nothing else', async () => {
    const path = join(folder, 'empty.db');
    const context = await openContext(`file:${path}`);
    refusal('database-unusable', /another program has it locked/, () => restore(copy, `file:${path}`));
    await closeContext(context);
    restore(copy, `file:${path}`);
    expect(content(path)).toEqual(content(plant.path));

    const there = content(path);
    refusal('conflict', /empty\.db holds data already and is not overwritten/, () =>
      restore(copy, `file:${path}`),
    );
    expect(content(path)).toEqual(there);
  });

  it('brings a backup of an earlier version up to date', () => {
    // Every migration but the first is to come.
    const old = join(folder, 'old.db');
    const first = new Database(old);
    const name = readdirSync('prisma/migrations/sqlite').sort()[0]!;
    first.exec(readFileSync(`prisma/migrations/sqlite/${name}/migration.sql`, 'utf8'));
    first.exec(
      'CREATE TABLE _prisma_migrations AS SELECT * FROM (SELECT 1 AS id, 2 AS checksum, 3 AS finished_at, 4 AS migration_name, 5 AS applied_steps_count) WHERE 0',
    );
    first.prepare('INSERT INTO _prisma_migrations (id, checksum, migration_name) VALUES (1, ?, ?)').run(
      inDatabase(plant.path, (database) =>
        database.prepare('SELECT checksum FROM _prisma_migrations ORDER BY migration_name').pluck().get(),
      ),
      name,
    );
    first.exec("INSERT INTO site (id, name, time_zone, currency) VALUES (1, 'North', 'UTC', 'EUR')");
    first.close();
    const path = join(folder, 'new.db');
    expect(restore(old, `file:${path}`).migrated.length).toBeGreaterThan(5);
    expect(content(path).site).toMatchObject([{ id: 1, name: 'North' }]);
    expect(readdirSync(folder).filter((file) => file.includes('part'))).toEqual([]);
  });

  const refused: [what: string, message: RegExp, damage: (file: string) => void][] = [
    ['half a file', /malformed|not a database|page/, (file) => truncateSync(file, 20_000)],
    ['an empty file', /no database of Cleanby|not a database/, (file) => truncateSync(file, 0)],
    ['some other file', /not a database/, (file) => writeFileSync(file, 'tag,time,hot_in\n'.repeat(500))],
    [
      'a database of something else',
      /no database of Cleanby: it records no migrations/,
      (file) => {
        rmSync(file);
        inDatabase(file, (database) => database.exec('CREATE TABLE recipe (name TEXT)'));
      },
    ],
    [
      'a database of a newer version',
      /newer version of Cleanby \(unknown migration 99990101000000_later\): start that version/,
      (file) =>
        inDatabase(file, (database) =>
          database.exec(
            "INSERT INTO _prisma_migrations (id, checksum, migration_name) VALUES ('z', 'z', '99990101000000_later')",
          ),
        ),
    ],
    [
      'one whose rows contradict each other',
      /readings: \d+ readings of unit 1 and batch 99/,
      (file) => inDatabase(file, (database) => database.exec('UPDATE reading SET batch_id = 99')),
    ],
    [
      'overwritten pages',
      /malformed|page|Tree|row/,
      (file) => {
        const bytes = readFileSync(file);
        bytes.fill(0x33, 12 * 4096, 40 * 4096);
        writeFileSync(file, bytes);
      },
    ],
  ];
  for (const [what, message, damage] of refused) {
    it(`refuses ${what}, and leaves nothing behind`, () => {
      damage(copy);
      const path = join(folder, 'new.db');
      refusal('not-readable', /copy\.db cannot be restored: /, () => restore(copy, `file:${path}`));
      refusal('not-readable', message, () => restore(copy, `file:${path}`));
      expect(readdirSync(folder)).toEqual(['copy.db']);
    });
  }

  it('refuses a file that was being written, and a live database', () => {
    const part = `${copy}.part`;
    writeFileSync(part, readFileSync(copy));
    refusal('not-readable', /interrupted ends in \.part/, () => restore(part, `file:${folder}/new.db`));
    writeFileSync(`${copy}-wal`, 'pages not yet in the file');
    refusal('not-readable', /is a database in use/, () => restore(copy, `file:${folder}/new.db`));
    expect(existsSync(join(folder, 'new.db'))).toBe(false);
  });
});

describe('on the command line', () => {
  it('a backup goes out, comes back elsewhere, and verifies', async () => {
    const file = join(folder, 'copy.db');
    const made = await runCleanby(['backup', file], plant.url);
    expect(made).toMatchObject({
      code: 0,
      stderr: expect.stringMatching(/copy\.db: \d+\.\d MiB, whole and verified/),
    });
    const again = await runCleanby(['backup', file], plant.url);
    expect(again).toMatchObject({ code: 1, stderr: expect.stringMatching(/add --replace\n$/) });
    const url = `file:${join(folder, 'plant.db')}`;
    const back = await runCleanby(['restore', file], url);
    expect(back).toMatchObject({
      code: 0,
      stderr: expect.stringMatching(/restored from .*, verified in \d+ checks/),
    });
    expect((await runCleanby(['verify'], url)).code).toBe(0);
    expect((await runCleanby(['restore', file], url)).code).toBe(1);
  });
});
