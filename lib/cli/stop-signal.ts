const SIGNALS: NodeJS.Signals[] = ['SIGINT', 'SIGTERM'];

/** A way to stop: the signals of a person or a service manager, or the end of the process that started this one. */
export type StopSignal = {
  signal: AbortSignal;
  /** Resolves at the next word from the process that started this one. */
  woken: () => Promise<void>;
};

/** Stops at the first signal; a second one ends the process at once. */
export function stopSignal(): StopSignal {
  const stopping = new AbortController();
  const stop = () => {
    if (stopping.signal.aborted) process.exit(1);
    stopping.abort();
  };
  for (const name of SIGNALS) process.on(name, stop);
  let wake: () => void = () => {};
  process.on('message', () => wake());
  process.on('disconnect', () => {
    if (!stopping.signal.aborted) stopping.abort();
  });
  // A channel to a parent is no reason to stay.
  process.channel?.unref();
  return {
    signal: stopping.signal,
    woken: () =>
      new Promise((resolve) => {
        wake = resolve;
      }),
  };
}
