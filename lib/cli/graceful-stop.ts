import type { Server } from 'node:http';
import { log } from '@/lib/work/log';

/** How long what is under way when a stop is asked for may take to end; what has not ended is rolled back [ms]. */
export const STOP_WITHIN = 15_000;
/** How often connections that have become idle meanwhile are closed [ms]. */
const IDLE_SWEEP = 50;

const SIGNALS: NodeJS.Signals[] = ['SIGINT', 'SIGTERM'];

export type Stop = {
  /** Closes what the requests worked with; afterwards nothing is written any more. */
  close: () => Promise<void>;
  within?: number;
};

/**
 * Serves until the process is asked to stop: then no request is taken any more, those under way end or are cut off, and what
 * they worked with is closed. A second signal ends the process at once, which loses nothing that was acknowledged.
 *
 * @returns exit code
 */
export async function serveUntilStopped(
  server: Server,
  { close, within = STOP_WITHIN }: Stop,
): Promise<number> {
  const signal = await firstSignal();
  log.info({ signal, within }, 'stopping: requests under way are ended');
  const isCutOff = await closeServer(server, within);
  await close();
  log.info({ cutOff: isCutOff }, 'stopped');
  return 0;
}

/** Waits for the first signal; every later one ends the process. */
function firstSignal(): Promise<NodeJS.Signals> {
  return new Promise((resolve) => {
    let isAsked = false;
    const take = (signal: NodeJS.Signals) => {
      if (isAsked) process.exit(1);
      isAsked = true;
      resolve(signal);
    };
    for (const name of SIGNALS) process.on(name, take);
  });
}

/** True where requests had not ended in time. */
async function closeServer(server: Server, within: number): Promise<boolean> {
  let isCutOff = false;
  const closed = new Promise<void>((resolve) => server.close(() => resolve()));
  // A browser keeps its connection open after an answer: it must not be waited for.
  const sweep = setInterval(() => server.closeIdleConnections(), IDLE_SWEEP);
  const deadline = setTimeout(() => {
    isCutOff = true;
    server.closeAllConnections();
  }, within);
  await closed;
  clearInterval(sweep);
  clearTimeout(deadline);
  return isCutOff;
}
