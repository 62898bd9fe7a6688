import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { SeriesStore } from '@/lib/store/series/series-store';
import { inProcess } from './in-process';
import type { FromThread, ToThread } from './thread-messages';
import type { Computer, UnitOutcome, UnitTask } from './unit-task';

/** Units given to a thread at once [-]: enough for few queries, and so few that all threads end at about the same time. */
const PORTION = 16;
/** Fewer units are done sooner than threads are there [-]. */
const FEWEST_FOR_THREADS = 24;
/** Batches under way at once: one is gathered and one written while the threads have the third. */
const LANES = 3;

/** Threads to work units out with: as CLEANBY_THREADS says, or as many as the machine has cores. */
export function usualThreads(): number {
  const stated = Number(process.env.CLEANBY_THREADS);
  return Number.isInteger(stated) && stated > 0 ? stated : availableParallelism();
}

/** Who works out so many units: threads where it is worth starting them, else this one. */
export function computerFor(
  series: SeriesStore,
  { databaseUrl, threads }: { databaseUrl: string; threads: number },
): (units: number) => Computer {
  return (units) =>
    threads > 1 && units >= FEWEST_FOR_THREADS ? openThreads(databaseUrl, threads) : inProcess(series);
}

/** A computer for one who works on and on: its threads are opened when they are first worth it, and stay. */
export type KeptComputer = { computer: (units: number) => Computer; close(): Promise<void> };

/** Threads that outlast what they are asked for: to start them costs more than the units of a quiet hour. */
export function keptComputer(
  series: SeriesStore,
  { databaseUrl, threads }: { databaseUrl: string; threads: number },
): KeptComputer {
  let open: ThreadComputer | null = null;
  const closeOpen = async () => {
    const closing = open;
    open = null;
    await closing?.close();
  };
  const lent = (lender: ThreadComputer): Computer => ({
    ...lender,
    close: async () => {
      if (!lender.isWell()) await closeOpen();
    },
  });
  return {
    computer: (units) => {
      if (threads === 1 || (open === null && units < FEWEST_FOR_THREADS) || units < PORTION)
        return inProcess(series);
      open ??= openThreads(databaseUrl, threads);
      return lent(open);
    },
    close: closeOpen,
  };
}

type Portion = {
  tasks: UnitTask[];
  signal: AbortSignal | undefined;
  settle: (outcomes: UnitOutcome[]) => void;
  fail: (error: unknown) => void;
};

type ThreadComputer = Computer & { isWell(): boolean };

/** Works units out in threads of this process, each with a connection of its own to the database. */
export function openThreads(databaseUrl: string, count: number): ThreadComputer {
  const waiting: Portion[] = [];
  const threads = Array.from({ length: count }, () => openThread(databaseUrl, next));
  function next(): void {
    for (const thread of threads) {
      if (thread.isBusy()) continue;
      const portion = waiting.shift();
      if (portion === undefined) return;
      if (portion.signal?.aborted) portion.settle([]);
      else thread.work(portion);
    }
  }
  const workOut = async (tasks: UnitTask[], signal?: AbortSignal): Promise<UnitOutcome[]> => {
    const portions = Array.from({ length: Math.ceil(tasks.length / PORTION) }, (_, index) =>
      tasks.slice(index * PORTION, (index + 1) * PORTION),
    );
    const done = portions.map(
      (part) =>
        new Promise<UnitOutcome[]>((settle, fail) => {
          waiting.push({ tasks: part, signal, settle, fail });
        }),
    );
    next();
    return (await Promise.all(done)).flat();
  };
  return {
    lanes: LANES,
    hear: (tellings) => {
      for (const thread of threads) thread.send({ kind: 'hear', tellings });
    },
    workOut,
    isWell: () => threads.every((thread) => !thread.hasEnded()),
    close: async () => {
      await Promise.all(threads.map(({ close }) => close()));
    },
  };
}

function openThread(databaseUrl: string, onFree: () => void) {
  // Options of the process (a loader, a debugger's port) are none of its business.
  const worker = new Worker(new URL('thread.mjs', import.meta.url), {
    workerData: databaseUrl,
    execArgv: [],
  });
  let portion: Portion | null = null;
  let ended: Error | null = null;
  let lastId = 0;
  const send = (message: ToThread) => worker.postMessage(message);
  const end = (error: Error) => {
    ended ??= error;
    portion?.fail(ended);
    portion = null;
  };
  worker.on('error', (error) => end(error as Error));
  worker.on('exit', (code) => end(new Error(`a thread of the analysis ended with code ${code}`)));
  worker.on('message', (answer: FromThread) => {
    if (answer.id !== lastId || portion === null) return;
    const { settle, fail } = portion;
    portion = null;
    if ('error' in answer) fail(answer.error);
    else settle(answer.outcomes);
    onFree();
  });
  return {
    send,
    isBusy: () => portion !== null,
    hasEnded: () => ended !== null,
    work: (given: Portion) => {
      if (ended !== null) {
        given.fail(ended);
        return;
      }
      portion = given;
      lastId++;
      send({ kind: 'work', id: lastId, tasks: given.tasks });
    },
    close: async () => {
      worker.removeAllListeners('exit');
      await worker.terminate();
    },
  };
}
