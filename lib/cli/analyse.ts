import type { Command } from 'commander';
import { AppError } from '@/lib/contract/app-error';
import { analyse } from '@/lib/work/analyse';
import { instantOrDay } from './instant';
import { message } from './output';
import { withContext } from './with-context';

type Options = { tag?: string; asOf?: string; all?: boolean; json?: boolean };

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
    .description('brings results up to date')
    .action(async (options: Options) => {
      const asOf = options.asOf === undefined ? null : instantOrDay(options.asOf);
      if (Number.isNaN(asOf))
        throw new AppError(
          'invalid-input',
          `"${options.asOf}" is no time with offset; write 2026-05-04T00:00:00+01:00 or a day`,
        );
      const done = await withContext((context) =>
        analyse(context, { tag: options.tag ?? null, asOf, all: options.all ?? false }),
      );
      if (options.json) process.stdout.write(`${JSON.stringify(done, null, 2)}\n`);
      message(`${done.analysed.length} units analysed, ${done.upToDate} already up to date`);
    });
}
