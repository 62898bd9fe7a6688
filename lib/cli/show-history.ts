import type { Cleanings } from '@/lib/contract/cleaning-request';
import { showCleanings as cleaningsOf } from '@/lib/work/read-cleanings';
import { showFalls as fallsOf } from '@/lib/work/read-falls';
import { showVerdicts as verdictsOf } from '@/lib/work/read-verdicts';
import { showCycles as cyclesOf } from '@/lib/work/show-results';
import { type OutputOptions, print, rounded } from './output';
import { withContext } from './with-context';

export async function showCycles(tag: string, options: OutputOptions): Promise<void> {
  const shown = await withContext((context) => cyclesOf(context, tag));
  const columns = [
    'from',
    'to',
    'days',
    'figures',
    'Rf at start',
    'Rf at end',
    'rate [m2.K/W per day]',
    'began with',
    'share recovered',
    'duty recovered [W]',
  ];
  const rows = shown.cycles.map((cycle) => [
    cycle.from,
    cycle.to,
    cycle.days,
    cycle.figures,
    rounded(cycle.foulingAtStart),
    rounded(cycle.foulingAtEnd),
    rounded(cycle.ratePerDay),
    cycle.began,
    rounded(cycle.cleaning?.shareRecovered),
    rounded(cycle.cleaning?.dutyRecovered),
  ]);
  print(options, { document: shown, table: { columns, rows } });
}

type Figures = Pick<Cleanings['cleanings'][number], 'at' | 'method' | 'cost' | 'duration' | 'note'>;

export async function showCleanings(tag: string, options: OutputOptions): Promise<void> {
  const shown = await withContext((context) => cleaningsOf(context, tag));
  const columns = ['number', 'at', 'method', 'cost', 'duration [s]', 'note', 'changed', 'by', 'because'];
  const figures = ({ at, method, cost, duration, note }: Figures) => [at, method, cost, duration, note];
  const rows = [
    ...shown.cleanings.map((cleaning) => [cleaning.id, ...figures(cleaning), null, null, null]),
    ...shown.changes.map((change) => [
      change.cleaning,
      ...figures(change),
      `${change.kind} ${change.changedAt}`,
      change.by,
      change.reason,
    ]),
  ];
  print(options, { document: shown, table: { columns, rows } });
}

export async function showFalls(tag: string, options: OutputOptions): Promise<void> {
  const shown = await withContext((context) => fallsOf(context, tag));
  const columns = [
    'day',
    'Rf before',
    'Rf after',
    'share of allowance',
    'number',
    'answer',
    'by',
    'withdrawn',
  ];
  const rows = [
    ...shown.probableCleanings.map(({ day, before, after, share }) => [
      day,
      rounded(before),
      rounded(after),
      rounded(share),
      null,
      null,
      null,
      null,
    ]),
    ...shown.answers.map(({ day, id, answer, by, withdrawn }) => [
      day,
      null,
      null,
      null,
      id,
      answer,
      by,
      withdrawn?.at ?? null,
    ]),
  ];
  print(options, { document: shown, table: { columns, rows } });
}

export async function showVerdicts(tag: string, options: OutputOptions): Promise<void> {
  const shown = await withContext((context) => verdictsOf(context, tag));
  const columns = ['number', 'from', 'to', 'verdict', 'note', 'by', 'withdrawn', 'withdrawn by'];
  const rows = shown.verdicts.map(({ id, from, to, verdict, note, by, withdrawn }) => [
    id,
    from,
    to,
    verdict,
    note,
    by,
    withdrawn?.at ?? null,
    withdrawn?.by ?? null,
  ]);
  print(options, { document: shown, table: { columns, rows } });
}
