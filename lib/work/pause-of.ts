import { setImmediate } from 'node:timers/promises';

/** Work goes on for so long before other requests have their turn [ms]. */
const SLICE_MS = 25;

/**
 * A pause for long work in this process: often nothing, now and then a turn for whatever else waits.
 *
 * @param signal where given, the pause rejects once it was aborted
 */
export function pauseOf(signal?: AbortSignal): () => Promise<void> {
  let begun = performance.now();
  return async () => {
    signal?.throwIfAborted();
    if (performance.now() - begun < SLICE_MS) return;
    await setImmediate();
    begun = performance.now();
    signal?.throwIfAborted();
  };
}
