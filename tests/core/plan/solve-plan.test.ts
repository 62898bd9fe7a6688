import { afterAll, describe, expect, it } from 'vitest';
import { makeProblem } from '../../../lib/core/plan/make-problem';
import type { PlanInput } from '../../../lib/core/plan/plan-input';
import type { PlanProblem } from '../../../lib/core/plan/plan-problem';
import { solvePlan } from '../../../lib/core/plan/solve-plan';
import { openSolver } from '../../../lib/work/solver/open-solver';
import { brokenConstraints, bruteForce, daysLate, scheduleCost } from '../../support/plan-brute-force';
import { FIRST_DAY, fleetInput, randomInput } from '../../support/plan-cases';

const CASES = 260;
const SLOTS = 8;
const NEAREST_FROM = 5000;
const NEAREST_CASES = 200;

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
    expect(infeasible).toBeLessThan(CASES - 150);
    expect(overdue).toBeGreaterThan(10);
  }, 240_000);

  it('where limits must be passed, passes them by the fewest days, and costs least among all that do', async () => {
    let late = 0;
    for (let seed = NEAREST_FROM; seed < NEAREST_FROM + NEAREST_CASES; seed++) {
      const problem = makeProblem(randomInput(seed, { units: 4, weeks: 5 }));
      const nearest = problem.unplaced.length > 0 ? null : bruteForce(problem, { allowsLate: true });
      if (nearest === null || nearest.hard < 1e-6) continue;
      late += 1;
      const plan = await solve(problem);
      const days = problem.units.map((_, u) => daysLate(problem, plan.schedule, u));
      const sum = (key: 'hard' | 'soft') => days.reduce((total, each) => total + each[key], 0);
      expect(plan.status, `seed ${seed}`).toBe('infeasible');
      expect(Math.abs(sum('hard') - nearest.hard), `seed ${seed}`).toBeLessThan(1e-5);
      expect(Math.abs(sum('soft') - nearest.soft), `seed ${seed}`).toBeLessThan(1e-5);
      expect(Math.abs(plan.cost.total - nearest.cost), `seed ${seed}`).toBeLessThan(1e-6 * nearest.cost);
      const broken = brokenConstraints(problem, plan.schedule);
      expect(
        broken.every((what) => what.endsWith(' late')),
        `seed ${seed}`,
      ).toBe(true);
      const named = plan.clashes.flatMap(({ kind, units }) => (kind === 'limit' ? units : []));
      expect(named, `seed ${seed}`).toEqual(days.flatMap(({ hard }, u) => (hard > 1e-6 ? [u] : [])));
    }
    expect(late).toBeGreaterThan(40);
  }, 120_000);

  it('cleans every √(2C/k) days where the loss grows evenly (Harris 1913)', async () => {
    const growth = 0.004;
    const weeks = 8;
    // Money per day and day of age, so that the square-root rule gives eight weeks.
    const k = growth * 86_400;
    const cost = (k * (weeks * 7) ** 2) / 2;
    const input = harrisInput({ growth, cost, cycles: 5, days: weeks * 7 });
    const problem = makeProblem(input);
    const plan = await solve(problem);
    const starts = plan.schedule[0]!.map((option) => problem.units[0]!.options[option]!.start);
    const gaps = starts.slice(1).map((start, i) => start - starts[i]!);
    expect(Math.sqrt((2 * cost) / k)).toBeCloseTo(weeks * 7, 9);
    expect(gaps).toEqual([56, 56, 56]);
    expect(plan.status).toBe('optimal');
  });

  it('plans sixty units over half a year to within one per cent', async () => {
    const problem = makeProblem(fleetInput({ units: 60, weeks: 26, crewHours: 240, seed: 3 }));
    const plan = await solve(problem, 0.01);
    expect(plan.gap).toBeLessThanOrEqual(0.01);
    expect(brokenConstraints(problem, plan.schedule)).toEqual([]);
  });

  it('says so when its time is up, and still keeps to the constraints', async () => {
    const problem = makeProblem(fleetInput({ units: 40, weeks: 26, crewHours: 90, seed: 4 }));
    let now = 0;
    const hurried = await solvePlan(problem, solver.solve, {
      timeLimit: 1,
      gap: 0,
      elapsed: () => {
        now += 0.05;
        return now;
      },
    });
    expect(hurried.isTimeUp).toBe(true);
    expect(hurried.status).not.toBe('optimal');
    expect(brokenConstraints(problem, hurried.schedule).filter((broken) => !broken.endsWith('late'))).toEqual(
      [],
    );
  });

  it('names the crew, the pair, the limit and the cleaning without a place that clash', async () => {
    const fleet = fleetInput({ units: 2, weeks: 10, crewHours: 40, seed: 1 });
    const [a, b] = fleet.units.map((unit) => ({ ...unit, deadline: null, life: null, isOverdue: false }));
    const cleaning = { ...a!.cleaning, durationDays: 2, crewHours: 30, inOutageOnly: false };
    const units = [a!, b!].map((unit) => ({ ...unit, cleaning }));
    const input = { ...fleet, units, outages: [], notTogether: [['E-1', 'E-2']] };
    const monday = makeProblem(input).units[0]!.options[2]!.start;
    const kindsOf = async (changed: Partial<PlanInput>) => {
      const plan = await solve(makeProblem({ ...input, ...changed }));
      expect(plan.status).toBe('infeasible');
      return plan.clashes.map(({ kind, units: who }) => [kind, who]);
    };
    const locked = [
      { tag: 'E-1', start: monday },
      { tag: 'E-2', start: monday },
    ];
    expect(await kindsOf({ locked })).toEqual([
      ['crew', [0, 1]],
      ['together', [0, 1]],
    ]);
    // Both must start before the first Monday of the plan has passed, and there is only one crew.
    const urgent = units.map((unit) => ({ ...unit, deadline: fleet.from + 6 }));
    const late = await kindsOf({ units: urgent });
    expect(late).toHaveLength(1);
    expect(late[0]![0]).toBe('limit');
    // Without time the same plan comes out, but not as proven.
    const unasked = async () => {
      throw new Error('the solver is not reached');
    };
    const hurried = await solvePlan(makeProblem({ ...input, units: urgent }), unasked, {
      timeLimit: 0,
      elapsed,
    });
    expect([hurried.status, hurried.isTimeUp]).toEqual(['infeasible', true]);
    expect((await solve(makeProblem({ ...input, units: urgent }))).isTimeUp).toBe(false);
    expect(await kindsOf({ locked: [{ tag: 'E-2', start: fleet.from - 5 }] })).toEqual([['no-place', [1]]]);
  });
});

/** One unit, clean at the beginning of a Monday's work, that can be cleaned in no time on any Monday. */
function harrisInput(of: { growth: number; cost: number; cycles: number; days: number }): PlanInput {
  const [unit] = fleetInput({ units: 1, weeks: 1, crewHours: 0, seed: 1 }).units;
  const begin = FIRST_DAY + 4 + 8 / 24;
  const ages = [0, 10_000];
  const lostDuty = ages.map((age) => of.growth * age);
  return {
    from: begin,
    to: begin + of.cycles * of.days,
    confidence: 0.9,
    outages: [],
    crews: [{ site: null, hoursPerWeek: 40 }],
    notTogether: [],
    locked: [],
    units: [
      {
        ...unit!,
        asOf: begin,
        ages,
        lostDuty,
        lostDutyAfter: lostDuty,
        pumping: [0, 0],
        pumpingAfter: [0, 0],
        heatRates: [{ fromDay: 0, perJoule: 1 }],
        deadline: null,
        life: null,
        isOverdue: false,
        cleaning: {
          cost: of.cost,
          durationDays: 0,
          crewHours: 10,
          method: null,
          inOutageOnly: false,
          downtimePerDay: 0,
        },
      },
    ],
  };
}
