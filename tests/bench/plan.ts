/**
 * How fast a plan is made, and how near to the best: `npx tsx tests/bench/plan.ts [units] [weeks] [seconds]`.
 */
import { makeProblem } from '../../lib/core/plan/make-problem';
import { solvePlan } from '../../lib/core/plan/solve-plan';
import { openSolver } from '../../lib/work/solver/open-solver';
import { fleetInput } from '../support/plan-cases';

const [units = 200, weeks = 52, timeLimit = 10] = process.argv.slice(2).map(Number);

async function bench(): Promise<void> {
  const solver = openSolver();
  const elapsed = () => performance.now() / 1000;
  console.log('units weeks crew  build s  solve s  gap %    status      total    rules');
  for (const crewHours of [4 * units, 1.6 * units, 0.8 * units]) {
    const begun = elapsed();
    const problem = makeProblem(fleetInput({ units, weeks, crewHours, seed: 5 }));
    const built = elapsed();
    const plan = await solvePlan(problem, solver.solve, {
      timeLimit,
      elapsed,
      onProgress: process.env.VERBOSE ? (p) => console.log((elapsed() - built).toFixed(2), p) : undefined,
    });
    const seconds = elapsed() - built;
    const { compared } = plan;
    console.log(
      [units, weeks, crewHours, (built - begun).toFixed(2), seconds.toFixed(2), ((plan.gap ?? NaN) * 100).toFixed(4), plan.status, Math.round(plan.cost.total), compared.allAtNextOutage.cost?.total, compared.fixedInterval.cost?.total, compared.fixedInterval.days, plan.clashes.length, plan.isTimeUp].join('  '),
    );
  }
  solver.close();
}

bench();
