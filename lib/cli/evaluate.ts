import type { Command } from 'commander';
import { evaluate } from '@/lib/work/evaluate';
import { readJson } from './json-file';
import { print, rounded } from './output';

export function addEvaluate(program: Command): void {
  program
    .command('evaluate')
    .argument('<file.json>', '{ "unit": …, "readings": [ … ] }')
    .option('--json', 'print as JSON')
    .option('--csv', 'print as CSV')
    .description('evaluates readings against a unit without a database')
    .action(async (path: string, options: { json?: boolean; csv?: boolean }) => {
      const evaluated = evaluate(await readJson(path));
      print(options, {
        document: evaluated,
        table: {
          columns: [
            'time',
            'duty [W]',
            'U [W/(m2.K)]',
            'clean U [W/(m2.K)]',
            'Rf [m2.K/W]',
            'clean reference',
            'left out because',
          ],
          rows: evaluated.map((one) => [
            one.time,
            rounded(one.duty),
            rounded(one.U),
            rounded(one.cleanU),
            rounded(one.foulingResistance),
            one.reference,
            one.reasons.join(', '),
          ]),
        },
      });
    });
}
