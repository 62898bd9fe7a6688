import type { PlanProblem, Schedule } from '../../lib/core/plan/plan-problem';

/** Rounding allowed when constraints are checked [h, days]. */
const TOLERANCE = 1e-6;

/** What a schedule breaks, worked out from the definitions alone; empty: nothing. */
export function brokenConstraints(problem: PlanProblem, schedule: Schedule): string[] {
  const broken: string[] = [];
  const used = problem.pools.map(() => 0);
  problem.units.forEach((unit, u) => {
    const chosen = schedule[u]!.map((o) => unit.options[o]!);
    for (const option of chosen) for (const { pool, hours } of option.crew) used[pool] = used[pool]! + hours;
    for (let i = 1; i < chosen.length; i++) {
      if (chosen[i]!.start < chosen[i - 1]!.end) broken.push(`${unit.tag} overlaps itself`);
    }
    if (unit.locked.some((o) => !schedule[u]!.includes(o))) broken.push(`${unit.tag} locked`);
    if (daysLate(problem, schedule, u).hard > TOLERANCE) broken.push(`${unit.tag} late`);
  });
  problem.pools.forEach((pool, p) => {
    if (used[p]! > pool.hours + TOLERANCE) broken.push(`crew ${p}`);
  });
  for (const [a, b] of problem.notTogether) {
    for (const i of schedule[a]!) {
      for (const j of schedule[b]!) {
        const [x, y] = [problem.units[a]!.options[i]!, problem.units[b]!.options[j]!];
        if (x.start < y.end && y.start < x.end && x.end > x.start && y.end > y.start)
          broken.push(`pair ${a} ${b}`);
      }
    }
  }
  return broken;
}

/** Lateness of one unit from its deadline and life: of an overdue unit's first cleaning, and all other. */
export function daysLate(
  problem: PlanProblem,
  schedule: Schedule,
  u: number,
): { hard: number; soft: number } {
  const unit = problem.units[u]!;
  const chosen = schedule[u]!.map((o) => unit.options[o]!);
  let hard = 0;
  let soft = 0;
  let latest = unit.isOverdue ? problem.from : unit.deadline;
  chosen.forEach((option, i) => {
    const days = latest === null ? 0 : Math.max(0, option.start - latest);
    if (unit.isOverdue && i === 0) soft += days;
    else hard += days;
    latest = unit.life === null ? null : option.end + unit.life;
  });
  if (latest !== null) hard += Math.max(0, problem.to - latest);
  return { hard, soft };
}

/** Cost of a schedule from the problem's tables. */
export function scheduleCost(problem: PlanProblem, schedule: Schedule): number {
  let total = 0;
  problem.units.forEach((unit, u) => {
    const width = unit.options.length + 1;
    let row = 0;
    for (const o of schedule[u]!) {
      total += unit.options[o]!.cost + unit.options[o]!.downtime + unit.losses[row * width + o]!;
      row = o + 1;
    }
    total += unit.losses[row * width + width - 1]!;
  });
  return total;
}

/** What schedules are compared by: days late, then days until overdue units are cleaned, then cost. */
type Merit = { hard: number; soft: number; cost: number };

/**
 * The best of all schedules by trying every one: units are gone through one after another with every subset of their options.
 * Overdue units are cleaned as early as possible first, then the cost decides; where limits may be passed, the fewest days
 * late come before both. A branch is left only where even the best of every unit still to come, without any constraint, could
 * not make it better than what is known.
 */
export function bruteForce(problem: PlanProblem, { allowsLate = false } = {}): Merit | null {
  const choices = problem.units.map((_, u) => subsetsOf(problem, u, allowsLate));
  let best: Merit | null = null;
  const least = (key: keyof Merit) => {
    const each = choices.map((list) => Math.min(...list.map((choice) => choice[key])));
    return each.map((_, u) => each.slice(u).reduce((sum, value) => sum + value, 0)).concat(0);
  };
  const [leastHard, leastSoft, leastCost] = [least('hard'), least('soft'), least('cost')];
  const schedule: Schedule = problem.units.map(() => []);
  const used = problem.pools.map(() => 0);
  const walk = (u: number, { hard, soft, cost }: Merit): void => {
    const atBest = { hard: hard + leastHard[u]!, soft: soft + leastSoft[u]!, cost: cost + leastCost[u]! };
    if (best !== null && !isLess(atBest, best)) return;
    if (u === choices.length) {
      best = { hard, soft, cost };
      return;
    }
    for (const choice of choices[u]!) {
      schedule[u] = choice.options;
      if (hasRoom(problem, { schedule, used, u })) {
        take(problem, { schedule, used, u }, 1);
        walk(u + 1, { hard: hard + choice.hard, soft: soft + choice.soft, cost: cost + choice.cost });
        take(problem, { schedule, used, u }, -1);
      }
    }
    schedule[u] = [];
  };
  walk(0, { hard: 0, soft: 0, cost: 0 });
  return best;
}

function isLess(a: Merit, b: Merit): boolean {
  for (const key of ['hard', 'soft'] as const) {
    if (Math.abs(a[key] - b[key]) > TOLERANCE) return a[key] < b[key];
  }
  return a.cost < b.cost;
}

type Partial = { schedule: Schedule; used: number[]; u: number };

function take(problem: PlanProblem, { schedule, used, u }: Partial, sign: number): void {
  for (const o of schedule[u]!) {
    for (const { pool, hours } of problem.units[u]!.options[o]!.crew) used[pool] = used[pool]! + sign * hours;
  }
}

function hasRoom(problem: PlanProblem, at: Partial): boolean {
  const { schedule, used, u } = at;
  take(problem, at, 1);
  const isOver = problem.pools.some((pool, p) => used[p]! > pool.hours + TOLERANCE);
  take(problem, at, -1);
  if (isOver) return false;
  return problem.notTogether
    .filter((pair) => pair.includes(u))
    .every(([a, b]) => {
      const other = a === u ? b : a;
      if (other > u) return true;
      return schedule[u]!.every((i) =>
        schedule[other]!.every((j) => {
          const [x, y] = [problem.units[u]!.options[i]!, problem.units[other]!.options[j]!];
          return !(x.start < y.end && y.start < x.end && x.end > x.start && y.end > y.start);
        }),
      );
    });
}

/** Every subset of a unit's options that does not overlap itself, holds what is locked and, unless allowed, is not late. */
function subsetsOf(problem: PlanProblem, u: number, allowsLate: boolean): (Merit & { options: number[] })[] {
  const unit = problem.units[u]!;
  const alone: PlanProblem = {
    ...problem,
    units: [unit],
    notTogether: [],
    unplaced: [],
    pools: problem.pools,
  };
  const out: (Merit & { options: number[] })[] = [];
  for (let mask = 0; mask < 2 ** unit.options.length; mask++) {
    const options = unit.options.flatMap((_, o) => ((mask >> o) & 1 ? [o] : []));
    const broken = brokenConstraints(alone, [options]);
    if (broken.some((what) => !allowsLate || !what.endsWith(' late'))) continue;
    out.push({ options, ...daysLate(alone, [options], 0), cost: scheduleCost(alone, [options]) });
  }
  return out.sort((a, b) => a.hard - b.hard || a.soft - b.soft || a.cost - b.cost);
}
