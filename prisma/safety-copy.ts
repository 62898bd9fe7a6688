import {
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import Database from 'better-sqlite3';

/** How many copies made before migrations are kept beside a database. */
const KEPT = 3;

/**
 * Copies a database as it was last committed to `NAME.before-MIGRATION.db` beside it and removes all but the last copies.
 * Whoever calls it holds the write lock, so that nothing is committed in between.
 *
 * @returns path of the copy
 */
export function keepSafetyCopy(path: string, migration: string): string {
  const stem = `${basename(path).replace(/\.db$/, '')}.before-`;
  const folder = dirname(path);
  const copy = freeName(join(folder, `${stem}${migration}`));
  const part = `${copy}.part`;
  rmSync(part, { force: true });
  // It holds what the database holds, accounts among it: nobody else may read it.
  closeSync(openSync(part, 'wx', 0o600));
  try {
    copyInto(path, part);
    syncFile(part);
    renameSync(part, copy);
  } catch (error) {
    rmSync(part, { force: true });
    throw error;
  }
  const copies = readdirSync(folder)
    .filter((name) => name.startsWith(stem) && name.endsWith('.db'))
    .map((name) => ({ name, at: statSync(join(folder, name)).mtimeMs }))
    .sort((one, other) => other.at - one.at);
  for (const { name } of copies.slice(KEPT)) rmSync(join(folder, name));
  return copy;
}

function copyInto(path: string, target: string): void {
  const database = new Database(path, { readonly: true });
  try {
    database.prepare('VACUUM INTO ?').run(target);
  } finally {
    database.close();
  }
}

/** A database brought back and migrated once more has its earlier copy left alone. */
function freeName(wanted: string): string {
  for (let number = 1; ; number++) {
    const path = number === 1 ? `${wanted}.db` : `${wanted}-${number}.db`;
    if (!existsSync(path)) return path;
  }
}

/** Waits until what was written to a file has reached the disk: `VACUUM INTO` itself does not. */
function syncFile(path: string): void {
  const file = openSync(path, 'r+');
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}
