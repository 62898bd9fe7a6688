import { fork } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { Found, Part } from './judge-part';

const CHILD = fileURLToPath(new URL('./child.ts', import.meta.url));

/** Judges the units of a part in as many processes as the machine has processors. */
export async function inProcesses({ keys, ...how }: Part): Promise<Found> {
  const processes = Math.min(availableParallelism(), keys.length);
  const parts = Array.from({ length: processes }, (_, process) => ({
    keys: keys.filter((_, index) => index % processes === process),
    ...how,
  }));
  const found = await Promise.all(parts.map(inProcess));
  return {
    judgements: found.flatMap(({ judgements }) => judgements),
    noises: found.flatMap(({ noises }) => noises),
  };
}

/** A child runs under the same loader as this process. */
function inProcess(part: Part): Promise<Found> {
  return new Promise((resolve, reject) => {
    const child = fork(CHILD, { serialization: 'advanced' });
    child.once('message', (found) => resolve(found as Found));
    child.once('error', reject);
    child.once('exit', (code) => reject(new Error(`a process of the bench ended with code ${code}`)));
    child.send(part);
  });
}
