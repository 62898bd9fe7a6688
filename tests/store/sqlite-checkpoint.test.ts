import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { openSqlite } from '@/lib/store/series/open-sqlite';
import { checkpointed, commitRows } from '@/lib/store/series/sqlite-checkpoint';

const ROWS = 60_000;

let folder: string;
let path: string;
let database: Database.Database;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-checkpoint-'));
  path = join(folder, 'plant.db');
  database = openSqlite(path);
  database.exec('CREATE TABLE figure (value INTEGER)');
});
afterEach(() => {
  database.close();
  rmSync(folder, { recursive: true, force: true });
});

/** What the file itself holds, without the log beside it. */
function rowsInFile(): number {
  const copy = join(folder, 'copy.db');
  copyFileSync(path, copy);
  const alone = new Database(copy);
  const [{ rows }] = alone.prepare('SELECT count(*) AS rows FROM figure').all() as [{ rows: number }];
  alone.close();
  return rows;
}

function write(): void {
  database.exec('BEGIN IMMEDIATE');
  const add = database.prepare('INSERT INTO figure VALUES (?)');
  for (let row = 0; row < ROWS; row++) add.run(row);
}

it('many rows are committed, and their log is in the file when that is over, while others read', async () => {
  await checkpointed(path);
  write();
  const committed = commitRows(database, ROWS);
  const reader = openSqlite(path);
  expect(reader.prepare('SELECT count(*) FROM figure').pluck().get()).toBe(ROWS);
  await committed;
  reader.close();
  expect(rowsInFile()).toBe(ROWS);
});

it('a log that cannot be brought into the file stays beside it', async () => {
  await checkpointed(join(folder, 'none.db'));
  write();
  database.exec('COMMIT');
  expect(database.prepare('SELECT count(*) FROM figure').pluck().get()).toBe(ROWS);
});
