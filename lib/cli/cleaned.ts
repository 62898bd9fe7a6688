import type { Command } from 'commander';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { instantWithOffset } from './instant';
import { message } from './output';
import { withContext } from './with-context';

type Options = { at: string; method?: string; cost?: string; by?: string; json?: boolean };

export function addCleaned(program: Command): void {
  program
    .command('cleaned')
    .argument('<tag>')
    .requiredOption('--at <time>', 'when it went back into service, ISO 8601 with offset')
    .option('--method <method>')
    .option('--cost <amount>', 'in the currency of the site')
    .option('--by <name>', 'who says so')
    .option('--json', 'print the record as JSON')
    .description('records a cleaning')
    .action(async (tag: string, options: Options) => {
      const cost = options.cost === undefined ? null : Number(options.cost);
      const done = {
        tag,
        at: instantWithOffset(options.at),
        method: options.method ?? null,
        cost,
        by: options.by ?? null,
      };
      await withContext((context) => recordCleaning(context, done));
      if (options.json) process.stdout.write(`${JSON.stringify({ ...done, at: options.at }, null, 2)}\n`);
      message(`${tag}: cleaning recorded at ${options.at}`);
    });
}
