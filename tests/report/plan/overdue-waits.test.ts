import { afterAll, describe, expect, it } from 'vitest';
import { makeProblem } from '@/lib/core/plan/make-problem';
import type { PlanInput } from '@/lib/core/plan/plan-input';
import { solvePlan } from '@/lib/core/plan/solve-plan';
import { needlessWaits } from '@/lib/report/plan/overdue-waits';
import { openSolver } from '@/lib/work/solver/open-solver';
import { brokenConstraints } from '../../support/plan-brute-force';
import { FIRST_DAY, randomInput } from '../../support/plan-cases';

const CASES = 30;
const WEEKS = 6;

const solver = openSolver();
afterAll(() => solver.close());

const elapsed = () => performance.now() / 1000;

/** A problem drawn at random in which every unit that has a limit is over it. */
function overdueInput(seed: number): PlanInput {
  const input = randomInput(seed, { units: 5, weeks: WEEKS });
  const units = input.units.map((unit) =>
    unit.deadline === null ? unit : { ...unit, deadline: FIRST_DAY - 1, isOverdue: true },
  );
  return { ...input, units };
}

describe('a needless wait of a unit over its limit', () => {
  it('is in no solved plan, and where one is named the place it names is earlier and breaks nothing', async () => {
    let overdue = 0;
    let needless = 0;
    for (let seed = 1; seed <= CASES; seed++) {
      const problem = makeProblem(overdueInput(seed));
      const { status, schedule } = await solvePlan(problem, solver.solve, { timeLimit: 30, gap: 0, elapsed });
      if (status !== 'optimal') continue;
      overdue += problem.units.filter(({ isOverdue }) => isOverdue).length;
      expect(needlessWaits(problem, schedule), `seed ${seed}`).toEqual([]);
      for (const [unit, { isOverdue, options }] of problem.units.entries()) {
        const [first] = schedule[unit]!;
        if (!isOverdue || first === undefined || schedule[unit]!.length > 1) continue;
        const late = schedule.with(unit, [options.length - 1]);
        const told = needlessWaits(problem, late).find((wait) => wait.unit === unit);
        // Tried one by one: whether any earlier place keeps to everything the late schedule's other units leave.
        const hasRoom = options.some(
          ({ start }, option) =>
            start < options.at(-1)!.start &&
            brokenConstraints(problem, late.with(unit, [option])).length === 0,
        );
        expect(told !== undefined, `seed ${seed}, unit ${unit}`).toBe(hasRoom);
        if (hasRoom) needless += 1;
      }
    }
    expect(overdue).toBeGreaterThan(10);
    expect(needless).toBeGreaterThan(10);
  }, 120_000);
});
