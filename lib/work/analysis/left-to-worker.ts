import { setTimeout as pause } from 'node:timers/promises';
import type { Context } from '../context';
import { workerBeside } from './worker-beside';

/** How often we ask whether the worker is done [ms]. */
const ASK_EVERY_MS = 50;
/** One unit is waited for so long before this process does it itself; many, until the worker is done or gone [ms]. */
const ONE_UNIT_MS = 5000;
const MANY_UNITS_MS = 15 * 60_000;

/**
 * Leaves units that are marked due to the process beside this one, and waits for it.
 *
 * @returns false where none runs, or none has done them in time
 */
export async function leftToWorker(
  { store }: Context,
  unitIds: readonly number[],
  signal?: AbortSignal,
): Promise<boolean> {
  const until = performance.now() + (unitIds.length === 1 ? ONE_UNIT_MS : MANY_UNITS_MS);
  workerBeside()?.wake();
  while (workerBeside() !== null && performance.now() < until && !signal?.aborted) {
    const { own, told } = await store.series.analysis.dueCounts(unitIds);
    if (own + told === 0) return true;
    await pause(ASK_EVERY_MS, undefined, { signal }).catch(() => {});
  }
  return false;
}
