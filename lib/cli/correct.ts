import type { Command } from 'commander';
import { cleaningCorrectionSchema } from '@/lib/contract/cleaning-request';
import { correctCleaning } from '@/lib/work/correct-cleaning';
import { message } from './output';
import { numberOrNull, stated, wholeNumber } from './stated';
import { withContext } from './with-context';

type Options = {
  at?: string;
  method?: string;
  cost?: string;
  note?: string;
  by?: string;
  reason: string;
  json?: boolean;
};

export function addCorrect(program: Command): void {
  program
    .command('correct')
    .argument('<tag>')
    .argument('<number>', 'of the cleaning, as show cleanings gives it', wholeNumber)
    .option('--at <time>', 'when it went back into service, ISO 8601 with offset')
    .option('--method <method>')
    .option('--cost <amount>', 'in the currency of the site')
    .option('--note <text>')
    .option('--by <name>', 'who says so')
    .requiredOption('--reason <text>', 'why it is corrected')
    .option('--json', 'print the correction as JSON')
    .description('corrects a recorded cleaning; what is not named stays, and what it was is kept')
    .action(async (tag: string, id: number, { json, cost, ...options }: Options) => {
      const changed = cost === undefined ? options : { ...options, cost: numberOrNull(cost) };
      const correction = stated(cleaningCorrectionSchema, changed);
      await withContext((context) => correctCleaning(context, tag, { ...correction, id }));
      if (json) process.stdout.write(`${JSON.stringify({ tag, id, ...correction }, null, 2)}\n`);
      message(`${tag}: cleaning ${id} corrected; run cleanby analyse`);
    });
}
