import { closeSync, fsyncSync, openSync, readdirSync, rmSync } from 'node:fs';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';

/** What a file that is not whole yet ends in; such a file is never taken for a database. */
export const PART_ENDING = '.part';

/**
 * Makes an empty file beside `path`, readable by its owner only, to be written to and then moved to `path`. What processes
 * killed on the way have left of theirs is removed.
 */
export function makePartFile(path: string): string {
  removeAbandonedParts(path);
  const part = `${path}.${owner(process.pid)}${PART_ENDING}`;
  rmSync(part, { force: true });
  closeSync(openSync(part, 'wx', 0o600));
  return part;
}

/** Removes a part with what SQLite keeps beside it. */
export function removePart(part: string): void {
  for (const ending of ['', '-journal', '-wal', '-shm']) rmSync(`${part}${ending}`, { force: true });
}

/** Waits until a file, and its entry in its folder, have reached the disk: neither SQLite's copies nor renaming do. */
export function syncToDisk(path: string): void {
  sync(path, 'r+');
  // Windows has no handle on folders, and needs none.
  if (process.platform !== 'win32') sync(dirname(path), 'r');
}

function sync(path: string, mode: string): void {
  const file = openSync(path, mode);
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

function owner(pid: number): string {
  return `${hostname()}-${pid}`;
}

function removeAbandonedParts(path: string): void {
  const stem = `${basename(path)}.${hostname()}-`;
  const pattern = /^(\d+)\.part(-journal|-wal|-shm)?$/;
  for (const name of readdirSync(dirname(path))) {
    const pid = name.startsWith(stem) ? pattern.exec(name.slice(stem.length))?.[1] : undefined;
    if (pid !== undefined && !isRunning(Number(pid))) rmSync(join(dirname(path), name), { force: true });
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
