import { once } from 'node:events';
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { Kind } from './kernel-data';

/** What a thread of the bench is given: which unit-years to make, and the count of those taken by any thread. */
export type ThreadInput = { kind: Kind; units: number; taken: SharedArrayBuffer };

/** Threads that stand ready, one for each core, each with every unit-year in its memory. */
export type KernelThreads = {
  count: number;
  /** Works every unit-year out once [ms of wall time]; throws where one was not. */
  work(): Promise<number>;
  close(): Promise<void>;
};

/** Starts the threads and waits until their unit-years are made. */
export async function openKernelThreads(kind: Kind, units: number): Promise<KernelThreads> {
  const taken = new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT);
  const workerData: ThreadInput = { kind, units, taken };
  const threads = Array.from(
    { length: availableParallelism() },
    () => new Worker(new URL('kernel-thread.mjs', import.meta.url), { workerData, execArgv: [] }),
  );
  const answers = async () => {
    const counts: number[][] = await Promise.all(threads.map((thread) => once(thread, 'message')));
    return counts.reduce((sum, [count]) => sum + count!, 0);
  };
  await answers();
  return {
    count: threads.length,
    work: async () => {
      new Int32Array(taken)[0] = 0;
      const began = performance.now();
      for (const thread of threads) thread.postMessage('work');
      const worked = await answers();
      if (worked !== units) throw new Error(`${worked} of ${units} unit-years were worked out`);
      return performance.now() - began;
    },
    close: async () => {
      await Promise.all(threads.map((thread) => thread.terminate()));
    },
  };
}
