import { writeFile } from 'node:fs/promises';
import type { Command } from 'commander';
import { AppError } from '@/lib/contract/app-error';
import { type PlanResult, weeksOf } from '@/lib/contract/plan';
import { calendarOfPlan } from '@/lib/work/calendar-of-plan';
import { makePlan } from '@/lib/work/make-plan';
import { readJson } from './json-file';
import { message, type OutputOptions, print, rounded, type Table } from './output';
import { withContext } from './with-context';

type Options = OutputOptions & { outages: string; horizon?: string; ics?: string };

export function addPlan(program: Command): void {
  program
    .command('plan')
    .requiredOption(
      '--outages <file>',
      'JSON: outages, crew outside them, units not out together, confidence',
    )
    .option('--horizon <time>', 'how far ahead, such as 52w (the default), 180d or 6mo')
    .option('--ics <file>', 'write the calendar of the plan (RFC 5545)')
    .option('--json', 'print as JSON')
    .option('--csv', 'print as CSV')
    .description('where cleanings are best placed, and against plain rules what that saves')
    .action(async ({ outages, horizon, ics, ...output }: Options) => {
      const document = { ...asObject(await readJson(outages), outages), ...weeksGiven(horizon) };
      const plan = await withContext(async (context) => {
        const made = await makePlan(context, document);
        if (ics !== undefined) await writeFile(ics, await calendarOfPlan(context, made));
        return made;
      });
      print(output, { document: plan, table: tableOf(plan) });
      for (const line of inWords(plan)) message(line);
    });
}

function asObject(document: unknown, file: string): object {
  if (typeof document === 'object' && document !== null && !Array.isArray(document)) return document;
  throw new AppError('invalid-input', `${file} holds no object with outages, crew and constraints`);
}

function weeksGiven(horizon: string | undefined): { weeks?: number } {
  if (horizon === undefined) return {};
  const weeks = weeksOf(horizon);
  if (weeks !== null) return { weeks };
  throw new AppError('invalid-input', `The horizon "${horizon}" cannot be read`, [
    { field: '--horizon', message: 'write weeks, days or months, such as 52w, 180d or 6mo' },
  ]);
}

function tableOf({ cleanings }: PlanResult): Table {
  return {
    columns: ['tag', 'start', 'end', 'outage', 'reason', 'cost', 'saves', 'clean before'],
    rows: cleanings.map((each) => [
      each.tag,
      each.start,
      each.end,
      each.outage,
      each.reason,
      rounded(each.cost),
      rounded(each.saves),
      each.cleanBefore,
    ]),
  };
}

function inWords(plan: PlanResult): string[] {
  const { gap, cost, currency, compared, clashes, leftOut } = plan;
  const money = (amount: number) => `${Math.round(amount)}${currency === null ? '' : ` ${currency}`}`;
  const rule = (name: string, total: number | null) =>
    `${name}: ${total === null ? 'cannot be kept to' : money(total)}`;
  return [
    ...clashes.map(({ constraint }) => `clash: ${constraint}`),
    ...leftOut.map(({ tag, reason }) => `left out: ${tag}, ${reason}`),
    `${statusInWords(plan)}${gap === null ? '' : `, at most ${(gap * 100).toFixed(2)} % above the least cost`}: ${money(cost.total)} (cleaning ${money(cost.cleaning)}, downtime ${money(cost.downtime)}, loss ${money(cost.loss)})`,
    rule('everything at the next outage', compared.allAtNextOutage.total),
    rule(
      compared.fixedInterval.days === null ? 'a fixed interval' : `every ${compared.fixedInterval.days} days`,
      compared.fixedInterval.total,
    ),
  ];
}

function statusInWords({ status, isTimeUp }: PlanResult): string {
  if (status !== 'infeasible' || !isTimeUp) return status;
  return 'no plan that keeps every constraint was found in the time; the nearest';
}
