/**
 * How fast a plan is made, and how near to the best it is proven to be, for crews from ample to short; beside it the same
 * problem as one plain programme given straight to HiGHS with the same time limit, and told how early overdue units can be
 * cleaned, which the planner has to find out. `npm run bench:plan -- [units] [weeks] [seconds]`.
 */
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { makeProblemInTurns } from '../../lib/core/plan/make-problem';
import type { PlanProblem } from '../../lib/core/plan/plan-problem';
import { type PlanSolution, solvePlan } from '../../lib/core/plan/solve-plan';
import { pauseOf } from '../../lib/work/pause-of';
import { openSolver } from '../../lib/work/solver/open-solver';
import { solveArcFlow } from '../support/arc-flow';
import { daysLate } from '../support/plan-brute-force';
import { fleetInput } from '../support/plan-cases';

const [units = 200, weeks = 52, timeLimit = 10] = process.argv.slice(2).map(Number);
/** Crew hours a week for each unit of the fleet. */
const CREWS = [4, 2.5, 1.6];
/** Both searches stop when they are within this [-]. */
const WANTED_GAP = 0.01;
const SEED = 5;

const elapsed = () => performance.now() / 1000;

async function bench(): Promise<void> {
  console.log(`${units} units, ${weeks} weeks, time limit ${timeLimit} s, wanted gap ${percent(WANTED_GAP)}`);
  const columns = ['crew h/week', 'build s', 'solve s', 'processor s', 'longest block ms', 'gap', 'status'];
  console.log([...columns, 'plain s', 'plain gap'].join('  '));
  for (const share of CREWS) console.log((await compare(share * units)).join('  '));
}

async function compare(crewHours: number): Promise<(string | number)[]> {
  const { problem, plan, figures } = await planned(crewHours);
  const begun = elapsed();
  const daysOverdue = problem.units.reduce((sum, _, u) => sum + daysLate(problem, plan.schedule, u).soft, 0);
  const plain = await solveArcFlow(problem, { timeLimit, gap: WANTED_GAP, daysOverdue });
  const gap = plain.cost === null ? 'no plan found' : percent(plain.gap);
  return [crewHours, ...figures, (elapsed() - begun).toFixed(2), gap];
}

type Planned = { problem: PlanProblem; plan: PlanSolution; figures: string[] };

async function planned(crewHours: number): Promise<Planned> {
  const solver = openSolver();
  const pause = pauseOf();
  const blocks = monitorEventLoopDelay({ resolution: 5 });
  blocks.enable();
  const begun = elapsed();
  const problem = await makeProblemInTurns(fleetInput({ units, weeks, crewHours, seed: SEED }), pause);
  const built = elapsed();
  const used = process.cpuUsage();
  const plan = await solvePlan(problem, solver.solve, { timeLimit, gap: WANTED_GAP, elapsed, pause });
  const { user, system } = process.cpuUsage(used);
  const times = [built - begun, elapsed() - built, (user + system) / 1e6].map((seconds) =>
    seconds.toFixed(2),
  );
  blocks.disable();
  solver.close();
  const figures = [...times, (blocks.max / 1e6).toFixed(0), percent(plan.gap), plan.status];
  return { problem, plan, figures };
}

function percent(share: number | null): string {
  return share === null ? '–' : `${(share * 100).toFixed(3)} %`;
}

bench();
