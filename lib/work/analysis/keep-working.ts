import { setTimeout as pause } from 'node:timers/promises';
import type { Context } from '../context';
import { log } from '../log';
import { markStale, readFleetStanding } from './todays';
import type { Computer } from './unit-task';
import { workThrough } from './work-through';

/** How often a worker that nobody wakes asks whether anything is due [ms]. */
const ASK_EVERY_MS = 1000;
/** After something went wrong, such as a database that is away, it waits [ms]. */
const AFTER_FAILURE_MS = 5000;

export type KeptWorking = {
  computer: (units: number) => Computer;
  /** Ends it: what it has in hand is let go. */
  signal: AbortSignal;
  /** Until nothing is due, and no longer. */
  once?: boolean;
  leaseMs?: number | undefined;
  /** Called before each wait; the promise it gives ends the wait. */
  woken?: () => Promise<void>;
};

/** Works through what is due, waits until more is, and so on until it is told to stop. */
export async function keepWorking(context: Context, work: KeptWorking): Promise<void> {
  const { signal, once = false, woken } = work;
  // Results of an earlier method are due though nothing marks them so.
  await markStale(context, await readFleetStanding(context));
  while (!signal.aborted) {
    const isWell = await round(context, work).catch((error) => {
      if (once) throw error;
      log.error({ err: error }, 'the analysis failed and is tried again');
      return false;
    });
    if (once) return;
    const wait = pause(isWell ? ASK_EVERY_MS : AFTER_FAILURE_MS, undefined, { signal }).catch(() => {});
    await Promise.race([wait, woken?.() ?? wait]);
  }
}

async function round(context: Context, { computer: chosen, signal, leaseMs }: KeptWorking): Promise<true> {
  const { own, told } = await context.store.series.analysis.dueCounts(null);
  if (own + told === 0) return true;
  const began = performance.now();
  const computer = chosen(own + told);
  let units = 0;
  const onDone = (done: number) => {
    units += done;
  };
  try {
    await workThrough(context, { computer, signal, onDone, ...(leaseMs !== undefined && { leaseMs }) });
  } finally {
    await computer.close();
  }
  log.info({ units, ms: Math.round(performance.now() - began) }, 'analysed');
  return true;
}
