import type { Command } from 'commander';
import { AppError } from '@/lib/contract/app-error';
import { type Analysed, type AnalyseRequest, analyse } from '@/lib/work/analyse';
import { instantOrDay } from './instant';
import { message } from './output';
import { progressLine } from './progress-line';
import { stopSignal } from './stop-signal';
import { withContext } from './with-context';

type Options = { tag?: string; asOf?: string; all?: boolean; json?: boolean };

/** Exit code of a program that was interrupted by a person. */
const INTERRUPTED = 130;

export function addAnalyse(program: Command): void {
  program
    .command('analyse')
    .option('--tag <tag>', 'this unit only')
    .option(
      '--as-of <time>',
      'use only what was known before this time (ISO 8601 with offset, or a day, from midnight UTC)',
    )
    .option('--all', 'work everything out anew')
    .option('--json', 'print what was analysed as JSON')
    .description('brings results up to date; Ctrl-C stops it, what is finished stays')
    .action(async (options: Options) => {
      const asOf = options.asOf === undefined ? null : instantOrDay(options.asOf);
      if (Number.isNaN(asOf))
        throw new AppError(
          'invalid-input',
          `"${options.asOf}" is no time with offset; write 2026-05-04T00:00:00+01:00 or a day`,
        );
      const { signal } = stopSignal();
      const request = { tag: options.tag ?? null, asOf, all: options.all ?? false, signal };
      const done = await analysed(request);
      if (options.json) process.stdout.write(`${JSON.stringify(done, null, 2)}\n`);
      message(`${done.analysed.length} units analysed, ${done.upToDate} already up to date`);
      if (!signal.aborted) return;
      message('Stopped: the rest stays due');
      process.exitCode = INTERRUPTED;
    });
}

async function analysed(request: AnalyseRequest): Promise<Analysed> {
  const progress = progressLine('units');
  try {
    return await withContext((context) => analyse(context, { ...request, onProgress: progress.show }));
  } finally {
    progress.end();
  }
}
