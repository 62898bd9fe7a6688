import type { Command } from 'commander';
import { fallAnswerRequestSchema } from '@/lib/contract/fall-answers';
import { answerFall } from '@/lib/work/answer-fall';
import { message } from './output';
import { numberOrNull, stated } from './stated';
import { withContext } from './with-context';

type Options = {
  day: string;
  as: string;
  by?: string;
  note?: string;
  at?: string;
  method?: string;
  cost?: string;
  json?: boolean;
};

export function addAnswer(program: Command): void {
  program
    .command('answer')
    .argument('<tag>')
    .requiredOption('--day <day>', 'the day of a probable cleaning, as show falls gives it')
    .requiredOption('--as <answer>', 'cleaning or not-cleaning')
    .option('--by <name>', 'who says so')
    .option('--note <text>')
    .option('--at <time>', 'when it was cleaned, ISO 8601 with offset; default: the middle of the gap')
    .option('--method <method>')
    .option('--cost <amount>', 'in the currency of the site')
    .option('--json', 'print the answer as JSON')
    .description('says whether a fall of the fouling was a cleaning')
    .action(async (tag: string, { json, as, cost, ...options }: Options) => {
      const answer = { ...options, answer: as, cost: numberOrNull(cost) };
      const request = stated(fallAnswerRequestSchema, answer);
      await withContext((context) => answerFall(context, tag, request));
      if (json) process.stdout.write(`${JSON.stringify({ tag, ...request }, null, 2)}\n`);
      message(`${tag}: ${request.day} answered as ${request.answer}; run cleanby analyse`);
    });
}
