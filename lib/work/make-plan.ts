import { AppError, type Fault } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import { type PlanRequest, type PlanResult, planRequestSchema } from '@/lib/contract/plan';
import { makeProblemInTurns } from '@/lib/core/plan/make-problem';
import { solvePlan } from '@/lib/core/plan/solve-plan';
import { planInput } from '@/lib/report/plan/plan-input';
import { planResult } from '@/lib/report/plan/plan-result';
import type { FleetRecords } from '@/lib/report/records';
import type { Context } from './context';
import { pauseOf } from './pause-of';
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
  const pause = pauseOf(signal);
  const solver = openSolver(signal);
  try {
    const problem = await makeProblemInTurns(input, pause);
    // Reading the results and building the problem count.
    const timeLimit = Math.max(0, request.timeLimit - elapsed());
    const solution = await solvePlan(problem, solver.solve, { timeLimit, gap: GAP, elapsed, pause });
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
    leftOut.length === 0
      ? 'No unit can be planned: there is none yet; register units, import their readings, then analyse them'
      : 'No unit can be planned: import readings of them, then analyse; a unit needs some weeks of usable readings',
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
    ...crewFaults(request, unknownSite),
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

/** Each cleaning takes its hours from every crew that is there: two of one site would halve what they can do. */
function crewFaults(
  { online = [] }: PlanRequest,
  unknownSite: (name: string | undefined, field: string) => Fault[],
): Fault[] {
  const crews = [online].flat();
  return crews.flatMap(({ site }, index) => {
    const field = `online[${index}].site`;
    const first = crews.findIndex((other) => other.site === site);
    return [
      ...unknownSite(site, field),
      ...(first === index ? [] : [{ field, message: twiceInWords(site) }]),
    ];
  });
}

function twiceInWords(site: string | undefined): string {
  const whose = site === undefined ? 'A crew without a site' : `The crew of "${site}"`;
  return `${whose} is stated twice: state it once, with the hours of both`;
}

function refused(faults: Fault[]): AppError {
  return new AppError('invalid-input', 'The plan was not made: the request is not valid', faults);
}
