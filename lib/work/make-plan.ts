import { AppError, type Fault } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import { type PlanRequest, type PlanResult, planRequestSchema } from '@/lib/contract/plan';
import { makeProblem } from '@/lib/core/plan/make-problem';
import { solvePlan } from '@/lib/core/plan/solve-plan';
import { planInput } from '@/lib/report/plan/plan-input';
import { planResult } from '@/lib/report/plan/plan-result';
import type { FleetRecords } from '@/lib/report/records';
import type { Context } from './context';
import { readFleet } from './read-fleet';
import { openSolver } from './solver/open-solver';

/** Cost may lie this far above the least possible where proving more would take longer [-]. */
const GAP = 1e-4;

/**
 * Makes a cleaning plan for the units of a request from their stored results; nothing is stored.
 *
 * @throws AppError 'invalid-input' naming each field, or where no unit can be planned
 */
export async function makePlan(
  context: Context,
  document: unknown,
  { signal }: { signal?: AbortSignal } = {},
): Promise<PlanResult> {
  const began = performance.now();
  const elapsed = () => (performance.now() - began) / 1000;
  const request = checkPlanRequest(document);
  const fleet = await readFleet(context);
  const { input, leftOut } = plannable(fleet, request);
  const problem = makeProblem(input);
  const solver = openSolver(signal);
  try {
    const { timeLimit } = request;
    const solution = await solvePlan(problem, solver.solve, { timeLimit, gap: GAP, elapsed });
    const rules = solution.compared;
    return planResult(fleet, { request, input, problem, solution, rules, leftOut, seconds: elapsed() });
  } finally {
    solver.close();
  }
}

/** @throws AppError 'invalid-input' naming each field */
export function checkPlanRequest(document: unknown): PlanRequest {
  const parsed = planRequestSchema.safeParse(document);
  if (!parsed.success) throw refused(faultsOf(parsed.error));
  return parsed.data;
}

/**
 * What a request is planned from.
 *
 * @throws AppError 'invalid-input' for sites, units and outages that cannot be, and where no unit can be planned
 */
export function plannable(fleet: FleetRecords, request: PlanRequest) {
  const faults = requestFaults(fleet, request);
  if (faults.length > 0) throw refused(faults);
  const { input, leftOut } = planInput(fleet, request);
  if (input !== null) return { input, leftOut };
  throw new AppError(
    'invalid-input',
    'No unit can be planned',
    leftOut.map(({ tag, reason }) => ({ field: tag, message: reason })),
  );
}

function requestFaults(fleet: FleetRecords, request: PlanRequest): Fault[] {
  const sites = new Set(fleet.sites.map(({ name }) => name));
  const tags = new Set(fleet.units.map(({ record }) => record.tag));
  const unknownSite = (name: string | undefined, field: string): Fault[] =>
    name === undefined || sites.has(name) ? [] : [{ field, message: `there is no site "${name}"` }];
  const unknownTag = (tag: string, field: string): Fault[] =>
    tags.has(tag) ? [] : [{ field, message: `there is no unit "${tag}"` }];
  return [
    ...unknownSite(request.site, 'site'),
    ...[request.online ?? []].flat().flatMap(({ site }, index) => unknownSite(site, `online[${index}].site`)),
    ...request.outages.flatMap(({ site, from, to }, index) => [
      ...unknownSite(site, `outages[${index}].site`),
      // A day counts to its end, so an outage of one day is one.
      ...(Date.parse(to) < Date.parse(from) || (to === from && to.length > 'YYYY-MM-DD'.length)
        ? [{ field: `outages[${index}].to`, message: 'must be after the outage begins' }]
        : []),
    ]),
    ...request.notTogether.flatMap((group, index) =>
      group.flatMap((tag, place) => unknownTag(tag, `notTogether[${index}][${place}]`)),
    ),
    ...request.locked.flatMap(({ tag }, index) => unknownTag(tag, `locked[${index}].tag`)),
  ];
}

function refused(faults: Fault[]): AppError {
  return new AppError('invalid-input', 'The plan was not made: the request is not valid', faults);
}
