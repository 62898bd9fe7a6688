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
  /** How often it touched the folder of its database. */
  worked: number;
  /** How often until it last said something: what comes behind is putting things away. */
  workedUntilSaid: number;
};

/**
 * Runs a verb of the command line and kills it when it has touched the folder its database is in so many times; null: never.
 * Touches tell how far the work has come whatever else the machine does, which a clock does not.
 *
 * @param after touches of the folder
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
  const run: KilledRun = { isKilled: false, code: null, stderr: '', worked: 0, workedUntilSaid: 0 };
  child.stderr!.on('data', (data) => {
    run.stderr += data;
    run.workedUntilSaid = run.worked;
  });
  child.stdout!.resume();
  const closed = once(child, 'close');
  watcher.on('change', () => {
    run.worked++;
    if (after !== null && run.worked >= after) child.kill('SIGKILL');
  });
  const [code, signal] = (await closed) as [number | null, NodeJS.Signals | null];
  watcher.close();
  return { ...run, code, isKilled: signal === 'SIGKILL' };
}

/** What a command does when it is left alone. */
export async function runWhole(args: string[], place: { url: string; folder: string }): Promise<KilledRun> {
  const run = await runKilled(args, { ...place, after: null });
  if (run.code !== 0 || run.worked === 0) throw new Error(`it ended with ${run.code}: ${run.stderr}`);
  return run;
}

/** A run that was to be killed after so many touches of its folder, and looked at. */
export type Attempt = (after: number) => Promise<Pick<KilledRun, 'isKilled' | 'worked'>>;

/**
 * Kills so many runs, at moments spread over a stretch of work: one at random in each of its equal parts. A run that ended
 * before says how much work there is, and is made again.
 *
 * @param worked how much work there is [touches of the folder]
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
