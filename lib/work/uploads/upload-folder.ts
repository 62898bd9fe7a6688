import { randomUUID } from 'node:crypto';
import { mkdir, readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { besideDatabase } from '@/lib/store/database-path';
import { addressed } from '../back-up';

/** Says which process wrote a file, and which run of it: in a container every run has the same number. */
const NAME = /^upload-(\d+)-([0-9a-f]{8})-[0-9a-f-]+$/;

const RUN = Symbol.for('cleanby.upload-run');
type Holder = { [RUN]?: { id: string; swept: Map<string, Promise<void>> } };

/** This run of this process, whatever copies of this module it has loaded. */
function run() {
  const holder = globalThis as Holder;
  holder[RUN] ??= { id: randomUUID().slice(0, 8), swept: new Map() };
  return holder[RUN];
}

/** Where uploads lie while they come in and are read: beside the database or in `data`, on a disk that is meant for data. */
export function uploadFolder(databaseUrl = addressed()): string {
  return besideDatabase(databaseUrl, 'uploads');
}

/** A name for a new upload in a folder that only this account can read; what a killed process left there is gone by then. */
export async function newUploadPath(folder: string): Promise<string> {
  await mkdir(/* turbopackIgnore: true */ folder, { recursive: true, mode: 0o700 });
  const { swept } = run();
  if (!swept.has(folder)) swept.set(folder, sweepUploads(folder));
  await swept.get(folder);
  return join(folder, `upload-${process.pid}-${run().id}-${randomUUID()}`);
}

/** Removes what processes that no longer run have left in a folder of uploads. */
export async function sweepUploads(folder = uploadFolder()): Promise<void> {
  const names = await readdir(/* turbopackIgnore: true */ folder).catch(() => []);
  for (const name of names) {
    const [, pid, id] = NAME.exec(name) ?? [];
    if (pid !== undefined && !isWriting(Number(pid), id!)) await rm(join(folder, name), { force: true });
  }
}

function isWriting(pid: number, id: string): boolean {
  if (pid === process.pid) return id === run().id;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // Somebody else's process is one that runs.
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
