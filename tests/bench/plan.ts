/**
 * How fast a plan is made, and how near to the best it is proven to be, for crews from ample to short:
 * `npx tsx tests/bench/plan.ts [units] [weeks] [seconds]`.
 */
import { makeProblem } from '../../lib/core/plan/make-problem';
import { solvePlan } from '../../lib/core/plan/solve-plan';
import { openSolver } from '../../lib/work/solver/open-solver';
import { fleetInput } from '../support/plan-cases';

const [units = 200, weeks = 52, timeLimit = 10] = process.argv.slice(2).map(Number);
/** Crew hours a week for each unit of the fleet. */
const CREWS = [4, 2.5, 1.6];
/** The search stops when it is within this [-]. */
const WANTED_GAP = 0.01;
const SEED = 5;

async function bench(): Promise<void> {
  const solver = openSolver();
  const elapsed = () => performance.now() / 1000;
  console.log('units  weeks  crew h/week  build s  solve s  processor s  gap %  status');
  for (const share of CREWS) {
    const crewHours = share * units;
    const begun = elapsed();
    const problem = makeProblem(fleetInput({ units, weeks, crewHours, seed: SEED }));
    const built = elapsed();
    const used = process.cpuUsage();
    const plan = await solvePlan(problem, solver.solve, { timeLimit, gap: WANTED_GAP, elapsed });
    const { user, system } = process.cpuUsage(used);
    const times = [built - begun, elapsed() - built, (user + system) / 1e6].map((value) => value.toFixed(2));
    const gap = plan.gap === null ? '–' : (plan.gap * 100).toFixed(3);
    console.log([units, weeks, crewHours, ...times, gap, plan.status].join('  '));
  }
  solver.close();
}

bench();
