import { AppError } from '@/lib/contract/app-error';
import type { PlanRequest, PlanResult } from '@/lib/contract/plan';
import { makeProblemInTurns } from '@/lib/core/plan/make-problem';
import { plainRules } from '@/lib/core/plan/plain-rules';
import { priceSchedule } from '@/lib/core/plan/price-schedule';
import { draftSchedule } from '@/lib/report/plan/draft-schedule';
import { needlessWaits } from '@/lib/report/plan/overdue-waits';
import { planResult } from '@/lib/report/plan/plan-result';
import type { Context } from './context';
import { plannable } from './make-plan';
import { pauseOf } from './pause-of';
import { readFleet } from './read-fleet';

export type DraftCleaning = { tag: string; start: string };

/**
 * A schedule that a person put together, priced and checked against the stored results: a plan result whose clashes say what
 * it breaks. A unit over its limit that waits although there is room for it earlier is among them: no solved plan has one.
 *
 * @throws AppError 'invalid-input' for a cleaning that begins where none can, with the places there are
 */
export async function priceDraft(
  context: Context,
  request: PlanRequest,
  cleanings: readonly DraftCleaning[],
): Promise<PlanResult> {
  const fleet = await readFleet(context);
  const { input, leftOut } = plannable(fleet, request);
  const begun = performance.now();
  const pause = pauseOf();
  const hasTime = () => performance.now() - begun < 1000 * request.timeLimit;
  const problem = await makeProblemInTurns(input, pause);
  const { schedule, faults } = draftSchedule(problem, fleet, cleanings);
  if (faults.length > 0) throw new AppError('invalid-input', 'The plan cannot be as it stands', faults);
  const { cost, clashes } = priceSchedule(problem, schedule);
  const result = planResult(fleet, {
    request,
    input,
    problem,
    rules: await plainRules(problem, null, { hasTime, pause }),
    leftOut,
    seconds: 0,
    solution: {
      status: clashes.length === 0 ? 'within-gap' : 'infeasible',
      schedule,
      cost,
      clashes,
      bound: null,
      gap: null,
      isTimeUp: false,
    },
  });
  const waits = needlessWaits(problem, schedule).map(({ unit, words }) => ({
    tags: [problem.units[unit]!.tag],
    kind: 'limit' as const,
    constraint: words,
  }));
  return { ...result, clashes: [...result.clashes, ...waits] };
}
