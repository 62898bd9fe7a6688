import type { Command } from 'commander';
import { AppError } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import { type Review, type ReviewQuery, reviewQuerySchema } from '@/lib/contract/review';
import { review } from '@/lib/report/review/review';
import { readReview } from '@/lib/work/read-review';
import { message, type OutputOptions, print, type Table } from './output';
import { withContext } from './with-context';

type Options = OutputOptions & { since?: string; site?: string };

export function addReview(program: Command): void {
  program
    .command('review')
    .option('--since <day>', 'YYYY-MM-DD; seven days before the newest reading where not stated')
    .option('--site <name>', 'only the units of one site')
    .option('--json', 'print as JSON')
    .option('--csv', 'print as CSV')
    .description('what changed since a day')
    .action(async ({ since, site, ...output }: Options) => {
      const query = queryOf({ since, site });
      const document = await withContext(async (context) => review(await readReview(context, query), 'si'));
      print(output, { document, table: tableOf(document) });
      for (const notice of document.notices) message(notice);
      message(countsInWords(document));
    });
}

function queryOf(stated: Pick<Options, 'since' | 'site'>): ReviewQuery {
  const parsed = reviewQuerySchema.safeParse(stated);
  if (parsed.success) return parsed.data;
  throw new AppError('invalid-input', 'The day cannot be read', faultsOf(parsed.error));
}

function tableOf({ units }: Review): Table {
  return {
    columns: ['tag', 'urgency', 'change', 'what', 'to do', 'assigned to', 'seen'],
    rows: units.flatMap(({ tag, lines }) =>
      lines.map((line) => [
        tag,
        line.urgency,
        line.kind,
        line.text,
        line.advice,
        line.assignedTo,
        line.isSeen ? 'yes' : 'no',
      ]),
    ),
  };
}

function countsInWords({ since, counts }: Review): string {
  const { units, unchanged, act } = counts;
  return `Since ${since}: ${units - unchanged} of ${units} units changed, ${act} need somebody this week`;
}
