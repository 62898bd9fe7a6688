import { afterAll, describe, expect, it } from 'vitest';
import { makeProblem } from '../../../lib/core/plan/make-problem';
import { solvePlan } from '../../../lib/core/plan/solve-plan';
import { openSolver } from '../../../lib/work/solver/open-solver';
import { solveArcFlow } from '../../support/arc-flow';
import { fleetInput } from '../../support/plan-cases';

const CASES = 36;
/** Relative difference of two costs that are the same [-]. */
const SAME = 1e-6;

const solver = openSolver();
afterAll(() => solver.close());

/** Eight to fifteen units over twelve to twenty weeks, the crew from short to ample. */
function middling(seed: number) {
  const units = 8 + (seed % 8);
  return makeProblem(
    fleetInput({ units, weeks: 12 + ((3 * seed) % 9), crewHours: 50 + ((37 * seed) % 90), seed }),
  );
}

describe('the plan and a plain programme given straight to HiGHS', () => {
  it('cost the same, and neither finds a plan where the other finds none', async () => {
    let compared = 0;
    let overdue = 0;
    for (let seed = 1; seed <= CASES; seed++) {
      const problem = middling(seed);
      const elapsed = () => performance.now() / 1000;
      const plan = await solvePlan(problem, solver.solve, { timeLimit: 20, gap: 0, elapsed });
      const plain = await solveArcFlow(problem, { timeLimit: 20, gap: 0 });
      expect(plan.status === 'infeasible', `seed ${seed}`).toBe(plain.status === 'infeasible');
      if (plan.status === 'infeasible') continue;
      compared += 1;
      if (problem.units.some(({ isOverdue }) => isOverdue)) overdue += 1;
      expect(plain.status, `seed ${seed}`).toBe('optimal');
      const difference = (plan.cost.total - plain.cost!) / plain.cost!;
      expect(Math.abs(difference), `seed ${seed}`).toBeLessThanOrEqual(SAME);
    }
    expect(compared).toBeGreaterThanOrEqual(30);
    expect(overdue).toBeGreaterThan(5);
  }, 300_000);
});
