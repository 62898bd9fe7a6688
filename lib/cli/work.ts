import type { Command } from 'commander';
import { AppError } from '@/lib/contract/app-error';
import { keepWorking } from '@/lib/work/analysis/keep-working';
import { keptComputer, usualThreads } from '@/lib/work/analysis/threads';
import { addressed } from '@/lib/work/back-up';
import { stopSignal } from './stop-signal';
import { withContext } from './with-context';

type Options = { threads?: string; once?: boolean; lease?: string };

export function addWork(program: Command): void {
  program
    .command('work')
    .option('--threads <number>', 'threads to work with (default: CLEANBY_THREADS, or one for each core)')
    .option('--once', 'until nothing is due, instead of until it is stopped')
    .option(
      '--lease <seconds>',
      'a worker that has not been heard of for so long is taken for dead (default 60)',
    )
    .description('analyses whatever is due, until it is stopped; any number of them may run at once')
    .action(async ({ threads, once = false, lease }: Options) => {
      const count = threads === undefined ? usualThreads() : positive('--threads', threads);
      const leaseMs = lease === undefined ? undefined : 1000 * positive('--lease', lease);
      const { signal, woken } = stopSignal();
      await withContext(async (context) => {
        const kept = keptComputer(context.store.series, { databaseUrl: addressed(), threads: count });
        try {
          await keepWorking(context, { computer: kept.computer, signal, once, leaseMs, woken });
        } finally {
          await kept.close();
        }
      });
    });
}

function positive(name: string, text: string): number {
  const value = Number(text);
  if (!(value > 0)) throw new AppError('invalid-input', `${name} must be a number above 0, not "${text}"`);
  return value;
}
