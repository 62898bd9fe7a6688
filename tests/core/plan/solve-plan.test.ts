import { afterAll, describe, expect, it } from 'vitest';
import { makeProblem } from '../../../lib/core/plan/make-problem';
import type { PlanProblem } from '../../../lib/core/plan/plan-problem';
import { solvePlan } from '../../../lib/core/plan/solve-plan';
import { openSolver } from '../../../lib/work/solver/open-solver';
import { brokenConstraints, bruteForce, daysLate, scheduleCost } from '../../support/plan-brute-force';
import { randomInput } from '../../support/plan-cases';

const CASES = 240;
const SLOTS = 8;

const solver = openSolver();
afterAll(() => solver.close());

const elapsed = () => performance.now() / 1000;
const solve = (problem: PlanProblem, gap = 0) =>
  solvePlan(problem, solver.solve, { timeLimit: 30, gap, elapsed });

describe('the plan', () => {
  it('equals the best of all schedules, tried one by one, and is infeasible just where none keeps to everything', async () => {
    let infeasible = 0;
    let overdue = 0;
    for (let seed = 1; seed <= CASES; seed++) {
      const problem = makeProblem(randomInput(seed, { units: 5, weeks: SLOTS - 2 }));
      expect(problem.units.every(({ options }) => options.length <= SLOTS + 1)).toBe(true);
      const best = problem.unplaced.length > 0 ? null : bruteForce(problem);
      const plan = await solve(problem);
      if (best === null) {
        infeasible += 1;
        expect(plan.status, `seed ${seed}`).toBe('infeasible');
        expect(plan.clashes.length, `seed ${seed}`).toBeGreaterThan(0);
        continue;
      }
      expect(plan.status, `seed ${seed}`).toBe('optimal');
      expect(brokenConstraints(problem, plan.schedule), `seed ${seed}`).toEqual([]);
      const soft = problem.units.reduce((sum, _, u) => sum + daysLate(problem, plan.schedule, u).soft, 0);
      if (soft > 0) overdue += 1;
      expect(Math.abs(soft - best.soft), `seed ${seed}`).toBeLessThan(1e-6);
      expect(Math.abs(plan.cost.total - best.cost), `seed ${seed}`).toBeLessThan(1e-6);
      expect(Math.abs(scheduleCost(problem, plan.schedule) - best.cost), `seed ${seed}`).toBeLessThan(1e-6);
      expect(plan.bound).toBeLessThanOrEqual(best.cost + 1e-6 * best.cost);
    }
    expect(infeasible).toBeGreaterThan(20);
    expect(infeasible).toBeLessThan(CASES / 2);
    expect(overdue).toBeGreaterThan(20);
  });
});
