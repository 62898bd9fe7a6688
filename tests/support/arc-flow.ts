import loadHighs from 'highs';
import type { CleaningOption, PlanProblem, PlanUnit } from '../../lib/core/plan/plan-problem';

/** Days late below this are none. */
const TOLERANCE = 1e-6;
/** HiGHS's value for a feasible point in `primal_solution_status`. */
const FEASIBLE = 2;

type Arc = { unit: number; from: number; to: number; money: number; soft: number };
type Row = { lower: number; upper: number; entries: Map<number, number> };

/** What HiGHS made of the plain programme: null where it found no plan; `gap` as proven in its time [-]. */
export type SecondOpinion = {
  status: 'optimal' | 'infeasible' | 'open';
  cost: number | null;
  bound: number;
  gap: number | null;
};

/**
 * The plan as one plain programme given straight to HiGHS: each unit is a path of binary arcs from one of its cleanings to the
 * next, and the crews and pairs are rows over the cleanings. Built from the options, the losses, deadlines and lives alone;
 * nothing of the planner's own search is in it. First the fewest days until overdue units are cleaned, unless they are stated,
 * then the least cost.
 */
export async function solveArcFlow(
  problem: PlanProblem,
  { timeLimit, gap, daysOverdue }: { timeLimit: number; gap: number; daysOverdue?: number },
): Promise<SecondOpinion> {
  const flow = arcFlow(problem);
  const begun = performance.now();
  const left = () => Math.max(0.1, timeLimit - (performance.now() - begun) / 1000);
  let softAtMost = daysOverdue ?? 0;
  if (daysOverdue === undefined && problem.units.some(({ isOverdue }) => isOverdue)) {
    const early = await run(flow, { aim: 'soft', softAtMost: null, timeLimit: left(), gap: 0 });
    if (early.cost === null) return early;
    softAtMost = early.cost;
  }
  return run(flow, { aim: 'money', softAtMost: softAtMost + TOLERANCE, timeLimit: left(), gap });
}

type Flow = { arcs: Arc[]; rows: Row[]; columns: number; locked: Set<number> };

function arcFlow(problem: PlanProblem): Flow {
  const arcs = problem.units.flatMap((_, unit) => arcsOf(problem, unit));
  const rows: Row[] = [];
  const locked = new Set<number>();
  // Behind the arcs one column for each option: whether the unit is cleaned then.
  const firstOption = firstOptions(problem.units.map(({ options }) => options.length));
  const chosen = (unit: number, option: number) => arcs.length + firstOption[unit]! + option;
  const equal = (value: number): Row => ({ lower: value, upper: value, entries: new Map() });
  const most = (upper: number): Row => ({ lower: Number.NEGATIVE_INFINITY, upper, entries: new Map() });
  const starts = problem.units.map(() => equal(1));
  const into = problem.units.map(({ options }) => options.map(() => equal(0)));
  const outOf = problem.units.map(({ options }) => options.map(() => equal(0)));
  arcs.forEach(({ unit, from, to }, column) => {
    (from === 0 ? starts[unit]! : outOf[unit]![from - 1]!).entries.set(column, 1);
    into[unit]![to]?.entries.set(column, 1);
  });
  const crews = problem.pools.map(({ hours }) => most(hours));
  problem.units.forEach(({ options, locked: kept }, unit) => {
    options.forEach(({ crew }, option) => {
      for (const row of [into[unit]![option]!, outOf[unit]![option]!])
        row.entries.set(chosen(unit, option), -1);
      for (const { pool, hours } of crew) crews[pool]!.entries.set(chosen(unit, option), hours);
    });
    for (const option of kept) locked.add(chosen(unit, option));
  });
  rows.push(
    ...starts,
    ...into.flat(),
    ...outOf.flat(),
    ...crews.filter(({ upper }) => Number.isFinite(upper)),
  );
  for (const [a, b] of problem.notTogether) {
    problem.units[a]!.options.forEach((mine, i) => {
      problem.units[b]!.options.forEach((theirs, j) => {
        if (Math.min(mine.end, theirs.end) <= Math.max(mine.start, theirs.start)) return;
        const row = most(1);
        row.entries.set(chosen(a, i), 1).set(chosen(b, j), 1);
        rows.push(row);
      });
    });
  }
  const options = problem.units.reduce((sum, unit) => sum + unit.options.length, 0);
  return { arcs, rows, columns: arcs.length + options, locked };
}

function firstOptions(counts: readonly number[]): number[] {
  let sum = 0;
  return counts.map((count) => {
    sum += count;
    return sum - count;
  });
}

/** Steps of one unit that are not late, from the definitions: row 0 is the plan's first day, the last column its end. */
function arcsOf(problem: PlanProblem, index: number): Arc[] {
  const unit = problem.units[index]!;
  const width = unit.options.length + 1;
  const arcs: Arc[] = [];
  for (let from = 0; from < width; from++) {
    const before = unit.options[from - 1];
    for (let to = from; to < width; to++) {
      const option = unit.options[to];
      if (before !== undefined && option !== undefined && option.start < before.end) continue;
      const latest = latestStart(problem, unit, before);
      const late = latest === null ? 0 : Math.max(0, (option?.start ?? problem.to) - latest);
      const isSoft = unit.isOverdue && before === undefined && option !== undefined;
      if (late > TOLERANCE && !isSoft) continue;
      const money =
        unit.losses[from * width + to]! + (option === undefined ? 0 : option.cost + option.downtime);
      arcs.push({ unit: index, from, to, money, soft: isSoft ? late : 0 });
    }
  }
  return arcs;
}

function latestStart(
  { from }: PlanProblem,
  unit: PlanUnit,
  before: CleaningOption | undefined,
): number | null {
  if (before === undefined) return unit.isOverdue ? from : unit.deadline;
  return unit.life === null ? null : before.end + unit.life;
}

async function run(
  { arcs, rows: fixed, columns, locked }: Flow,
  {
    aim,
    softAtMost,
    timeLimit,
    gap,
  }: { aim: 'soft' | 'money'; softAtMost: number | null; timeLimit: number; gap: number },
): Promise<SecondOpinion> {
  const early = new Map(arcs.flatMap(({ soft }, column) => (soft > 0 ? [[column, soft] as const] : [])));
  const rows = [...fixed];
  if (softAtMost !== null && early.size > 0) {
    rows.push({ lower: Number.NEGATIVE_INFINITY, upper: softAtMost, entries: early });
  }
  const highs = await loadHighs();
  const model = highs.createModel({
    numCols: columns,
    numRows: rows.length,
    colCost: Float64Array.from({ length: columns }, (_, column) => arcs[column]?.[aim] ?? 0),
    colLower: Float64Array.from({ length: columns }, (_, column) => Number(locked.has(column))),
    colUpper: new Float64Array(columns).fill(1),
    rowLower: Float64Array.from(rows, ({ lower }) => lower),
    rowUpper: Float64Array.from(rows, ({ upper }) => upper),
    matrix: byRows(rows, columns),
    integrality: new Int32Array(columns).fill(1),
  });
  try {
    model.options.set({ output_flag: false, time_limit: timeLimit, mip_rel_gap: gap, mip_abs_gap: 0 });
    model.run();
    const status = model.getModelStatus();
    const { optimal, infeasible, empty } = highs.constants.modelStatus;
    const cost = model.info.get('primal_solution_status') === FEASIBLE ? model.getObjectiveValue() : null;
    const bound = Number(model.info.get('mip_dual_bound'));
    const isProven = status === optimal || status === empty;
    return {
      status: isProven ? 'optimal' : status === infeasible ? 'infeasible' : 'open',
      cost,
      bound,
      gap: cost === null || !Number.isFinite(bound) ? null : Math.max(0, cost - bound) / Math.abs(cost),
    };
  } finally {
    model.dispose();
  }
}

function byRows(rows: readonly Row[], columns: number) {
  const starts = new Int32Array(rows.length + 1);
  rows.forEach(({ entries }, row) => {
    starts[row + 1] = starts[row]! + entries.size;
  });
  return {
    format: 'csr' as const,
    numRows: rows.length,
    numCols: columns,
    starts,
    indices: Int32Array.from(rows.flatMap(({ entries }) => [...entries.keys()])),
    values: Float64Array.from(rows.flatMap(({ entries }) => [...entries.values()])),
  };
}
