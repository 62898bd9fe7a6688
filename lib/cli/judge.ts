import type { Command } from 'commander';
import { verdictRequestSchema } from '@/lib/contract/verdicts';
import { judgePeriod } from '@/lib/work/judge-period';
import { message } from './output';
import { stated } from './stated';
import { withContext } from './with-context';

type Options = { from: string; to: string; verdict: string; note: string; by?: string; json?: boolean };

export function addJudge(program: Command): void {
  program
    .command('judge')
    .argument('<tag>')
    .requiredOption('--from <time>', 'beginning of the period, ISO 8601 with offset')
    .requiredOption('--to <time>', 'its end, which is no longer part of it')
    .requiredOption('--verdict <verdict>', 'exclude its readings, or include those that can be used')
    .requiredOption('--note <text>', 'why')
    .option('--by <name>', 'who says so')
    .option('--json', 'print the verdict as JSON')
    .description('leaves the readings of a period out, or counts them in')
    .action(async (tag: string, { json, ...options }: Options) => {
      const request = stated(verdictRequestSchema, options);
      const id = await withContext((context) => judgePeriod(context, tag, request));
      if (json) process.stdout.write(`${JSON.stringify({ id, tag, ...request }, null, 2)}\n`);
      message(`${tag}: verdict ${id} holds; run cleanby analyse`);
    });
}
