import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { setPriority } from 'node:os';
import { fileURLToPath } from 'node:url';
import { setWorkerBeside } from '@/lib/work/analysis/worker-beside';
import { log } from '@/lib/work/log';

const COMMAND = fileURLToPath(new URL('cleanby.mjs', import.meta.url));
/** Pause before a worker that died is started again; it doubles up to the longest [ms]. */
const FIRST_PAUSE_MS = 1000;
const LONGEST_PAUSE_MS = 60_000;
/** Pages come first where both want the same core, by about three to one (`nice`). */
const BEHIND_PAGES = 5;
/** One that has run for so long had started well [ms]. */
const WELL_AFTER_MS = 60_000;
/** How long it may take to end when it is asked to [ms]. */
const END_WITHIN_MS = 10_000;

/**
 * Keeps one worker running beside the server, which must answer and not compute.
 *
 * @returns ends it, and starts no other
 */
export function keepWorkerBeside(): () => Promise<void> {
  let child: ChildProcess | null = null;
  let pauseMs = FIRST_PAUSE_MS;
  let restart: NodeJS.Timeout | undefined;
  let isEnded = false;
  const start = () => {
    const began = performance.now();
    const started = startWorker();
    child = started;
    setWorkerBeside({ wake: () => wake(started) });
    started.once('exit', (code, signal) => {
      child = null;
      setWorkerBeside(null);
      if (isEnded) return;
      pauseMs =
        performance.now() - began > WELL_AFTER_MS ? FIRST_PAUSE_MS : Math.min(2 * pauseMs, LONGEST_PAUSE_MS);
      log.error({ code, signal, pauseMs }, 'the worker ended and is started again');
      restart = setTimeout(start, pauseMs);
    });
  };
  start();
  return async () => {
    isEnded = true;
    clearTimeout(restart);
    setWorkerBeside(null);
    if (child !== null) await endWorker(child);
  };
}

function startWorker(): ChildProcess {
  const child = fork(COMMAND, ['work'], { stdio: ['ignore', 'inherit', 'inherit', 'ipc'], execArgv: [] });
  child.on('error', (error) => log.error({ err: error }, 'the worker'));
  if (child.pid !== undefined) setPriority(child.pid, BEHIND_PAGES);
  return child;
}

function wake(child: ChildProcess): void {
  // It may be just ending: then another asks for what is due by itself.
  if (child.connected) child.send('wake', () => {});
}

async function endWorker(child: ChildProcess): Promise<void> {
  const ended = once(child, 'exit');
  child.kill('SIGTERM');
  const late = setTimeout(() => child.kill('SIGKILL'), END_WITHIN_MS);
  await ended;
  clearTimeout(late);
}
