import { afterAll, describe, expect, it } from 'vitest';
import { makeProblem } from '../../lib/core/plan/make-problem';
import { solvePlan } from '../../lib/core/plan/solve-plan';
import { openSolver } from '../../lib/work/solver/open-solver';
import { brokenConstraints, scheduleCost } from '../support/plan-brute-force';
import { randomInput } from '../support/plan-cases';

const PLANS = 1000;
const FIRST_SEED = 10_000;

const solver = openSolver();
afterAll(() => solver.close());

describe('a thousand random plans', () => {
  it('break no constraint, and cost no more than either plain rule', async () => {
    let feasible = 0;
    let ruled = 0;
    for (let seed = FIRST_SEED; seed < FIRST_SEED + PLANS; seed++) {
      const problem = makeProblem(randomInput(seed, { units: 4, weeks: 5 }));
      const elapsed = () => performance.now() / 1000;
      const plan = await solvePlan(problem, solver.solve, { timeLimit: 20, gap: 0.02, elapsed });
      const broken = brokenConstraints(problem, plan.schedule);
      const isFeasible = plan.status !== 'infeasible';
      expect(isFeasible, `seed ${seed}`).toBe(broken.length === 0 && problem.unplaced.length === 0);
      expect(plan.clashes.length === 0, `seed ${seed}`).toBe(isFeasible);
      if (!isFeasible) continue;
      feasible += 1;
      expect(plan.bound).toBeLessThanOrEqual(plan.cost.total + 1e-6);
      for (const rule of [plan.compared.allAtNextOutage, plan.compared.fixedInterval]) {
        if (rule.schedule === null) continue;
        ruled += 1;
        expect(brokenConstraints(problem, rule.schedule), `seed ${seed}`).toEqual([]);
        expect(rule.cost!.total).toBeCloseTo(scheduleCost(problem, rule.schedule), 6);
        expect(plan.cost.total, `seed ${seed}`).toBeLessThanOrEqual(rule.cost!.total + 1e-6);
      }
    }
    expect(feasible).toBeGreaterThan(PLANS / 2);
    expect(ruled).toBeGreaterThan(PLANS);
  }, 400_000);
});
