import type { Command } from 'commander';
import { withdrawalSchema } from '@/lib/contract/withdrawal';
import { withdrawAnswer } from '@/lib/work/withdraw-answer';
import { withdrawCleaning } from '@/lib/work/withdraw-cleaning';
import { withdrawVerdict } from '@/lib/work/withdraw-verdict';
import { message } from './output';
import { stated, wholeNumber } from './stated';
import { withContext } from './with-context';

const VERBS = { verdict: withdrawVerdict, answer: withdrawAnswer, cleaning: withdrawCleaning } as const;
type Thing = keyof typeof VERBS;

type Options = { note: string; by?: string; json?: boolean };

export function addWithdraw(program: Command): void {
  const withdraw = program
    .command('withdraw')
    .description('takes back a verdict, an answer or a cleaning; it stays in the history');
  for (const thing of Object.keys(VERBS) as Thing[]) {
    withdraw
      .command(thing)
      .argument('<tag>')
      .argument('<number>', `of the ${thing}, as show gives it`, wholeNumber)
      .requiredOption('--note <text>', 'why')
      .option('--by <name>', 'who says so')
      .option('--json', 'print what was withdrawn as JSON')
      .action(async (tag: string, id: number, { json, ...options }: Options) => {
        const withdrawal = { ...stated(withdrawalSchema, options), id };
        await withContext((context) => VERBS[thing](context, tag, withdrawal));
        if (json) process.stdout.write(`${JSON.stringify({ tag, ...withdrawal }, null, 2)}\n`);
        message(`${tag}: ${thing} ${id} withdrawn; run cleanby analyse`);
      });
  }
}
