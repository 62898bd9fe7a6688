import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { watch } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { makeRandom } from '@/lib/core/stats/random';

const SCRIPT = fileURLToPath(new URL('verb-process.ts', import.meta.url));

export type KilledRun = {
  /** True: it was killed; false: it had ended before. */
  isKilled: boolean;
  code: number | null;
  stderr: string;
  /** From its first touch of the folder to its end [ms]. */
  worked: number;
};

/**
 * Runs a verb of the command line and kills it some time after it has first touched the folder its database is in; null: never. What
 * it does before, which is mostly reading its own program, is no work that could be lost.
 *
 * @param after [ms]
 */
export async function runKilled(
  args: string[],
  { url, folder, after }: { url: string; folder: string; after: number | null },
): Promise<KilledRun> {
  const watcher = watch(folder);
  const child = spawn(process.execPath, ['--import', 'tsx', SCRIPT, ...args], {
    env: { ...process.env, DATABASE_URL: url },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const run: KilledRun = { isKilled: false, code: null, stderr: '', worked: 0 };
  child.stderr!.on('data', (data) => (run.stderr += data));
  child.stdout!.resume();
  const closed = once(child, 'close');
  let began = Number.NaN;
  let timer: NodeJS.Timeout | undefined;
  watcher.once('change', () => {
    began = performance.now();
    if (after !== null) timer = setTimeout(() => child.kill('SIGKILL'), after);
  });
  const [code, signal] = (await closed) as [number | null, NodeJS.Signals | null];
  clearTimeout(timer);
  watcher.close();
  return { ...run, code, isKilled: signal === 'SIGKILL', worked: performance.now() - began };
}

/** How long a command works when it is left alone [ms]; how long it takes to start does not count. */
export async function workingTime(args: string[], place: { url: string; folder: string }): Promise<number> {
  const run = await runKilled(args, { ...place, after: null });
  if (run.code !== 0 || Number.isNaN(run.worked)) throw new Error(`it ended with ${run.code}: ${run.stderr}`);
  return run.worked;
}

/** A run that was to be killed after some time [ms], and looked at. */
export type Attempt = (after: number) => Promise<Pick<KilledRun, 'isKilled' | 'worked'>>;

/**
 * Kills so many runs, at moments spread over a stretch of work: one at random in each of its equal parts. A run that was
 * quicker than that says how long the work takes now, and is made again.
 *
 * @param worked how long the work takes [ms]
 * @returns how many were killed
 */
export async function killAtMoments(
  { kills, seed, worked }: { kills: number; seed: number; worked: number },
  attempt: Attempt,
): Promise<number> {
  const random = makeRandom(seed);
  let longest = worked;
  let killed = 0;
  for (let attempts = 0; killed < kills && attempts < 2 * kills; attempts++) {
    const run = await attempt(((killed + random.uniform()) / kills) * longest);
    if (run.isKilled) killed++;
    else longest = Math.min(longest, run.worked);
  }
  return killed;
}
