import { randomUUID } from 'node:crypto';
import { hostname } from 'node:os';

/** A name for a walk of this process, by which others on the same machine can tell whether it still lives. */
export function workerName(): string {
  return JSON.stringify([hostname(), process.pid, randomUUID()]);
}

/**
 * Whether a worker is a process of this machine that has ended: nobody need wait for its lease. Taken for dead by mistake, it
 * loses nothing but time, for nobody writes down what he does not hold.
 */
export function hasEnded(worker: string): boolean {
  const [host, pid] = partsOf(worker);
  if (host !== hostname() || pid === process.pid) return false;
  try {
    process.kill(pid, 0);
    return false;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ESRCH';
  }
}

function partsOf(worker: string): [host: string | null, pid: number] {
  try {
    const parts: unknown = JSON.parse(worker);
    if (Array.isArray(parts) && typeof parts[0] === 'string' && Number.isInteger(parts[1]))
      return [parts[0], parts[1]];
  } catch {
    // A name given by somebody else says nothing.
  }
  return [null, 0];
}
