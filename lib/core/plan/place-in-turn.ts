import { cheapestPath, type Path } from './cheapest-path';
import type { Pace } from './pace';
import type { PlanProblem, Schedule } from './plan-problem';
import { makeRoom, type Room } from './room';
import { alongPath } from './unit-arcs';

/** What a unit's steps cost while it is placed: the first attempt, the next if that finds no way; null: no more. */
export type TurnArcs = (unit: number, attempt: number) => { width: number; arcs: Float64Array } | null;

type Turn = { arcs: TurnArcs; order: readonly number[]; tries: number; pace: Pace };
type Placed = { schedule: Schedule | null; stuck: number | null };

const MOST_SWEEPS = 20;
/** A gain smaller than this share of a unit's cost is none [-]. */
const SMALLEST_GAIN = 1e-12;

/**
 * Places the units one after another, each by its cheapest schedule in the room the others left. A unit that finds none is
 * taken first the next time.
 *
 * @param problem units, pools and pairs
 * @param turn    steps of each unit; order: indexes of the units; tries: how often the order may change, if there is time
 * @returns schedule within all pools and pairs; null with the unit that found no place
 * @range  any
 * @source Joslin & Clements, Journal of Artificial Intelligence Research 10 (1999) 353-373 (squeaky wheel)
 * @check  tests/core/plan/solve-plan.test.ts
 */
export async function placeInTurn(problem: PlanProblem, turn: Turn): Promise<Placed> {
  let order = [...turn.order];
  let stuck: number | null = null;
  for (let tries = 0; tries < turn.tries; tries++) {
    if (tries > 0 && !turn.pace.hasTime()) break;
    const placed = await placeOnce(problem, { ...turn, order });
    if (placed.stuck === null) return placed;
    if (order[0] === placed.stuck) return { schedule: null, stuck: placed.stuck };
    stuck = placed.stuck;
    order = [stuck, ...order.filter((unit) => unit !== stuck)];
  }
  return { schedule: null, stuck };
}

async function placeOnce(problem: PlanProblem, { arcs, order, pace }: Turn): Promise<Placed> {
  const room = roomOfLocked(problem);
  const schedule: Schedule = problem.units.map(() => []);
  for (const unit of order) {
    await pace.pause();
    const options = placeUnit(problem, room, { unit, arcs });
    if (options === null) return { schedule: null, stuck: unit };
    schedule[unit] = options;
  }
  return { schedule, stuck: null };
}

function roomOfLocked(problem: PlanProblem): Room {
  const room = makeRoom(problem);
  problem.units.forEach(({ locked }, unit) => {
    room.add(unit, locked);
  });
  return room;
}

/** Takes the unit's locked cleanings out, and puts its cheapest schedule in; null leaves the locked ones in. */
function placeUnit(
  problem: PlanProblem,
  room: Room,
  { unit, arcs }: { unit: number; arcs: TurnArcs },
): number[] | null {
  const { options, locked } = problem.units[unit]!;
  room.remove(unit, locked);
  const prices = Float64Array.from(options, (_, option) =>
    room.fits(unit, option) ? 0 : Number.POSITIVE_INFINITY,
  );
  let path: Path | null = null;
  for (let attempt = 0, steps = arcs(unit, 0); steps !== null && path === null; steps = arcs(unit, attempt)) {
    path = cheapestPath({ ...steps, prices });
    attempt += 1;
  }
  room.add(unit, path?.options ?? locked);
  return path?.options ?? null;
}

/**
 * Improves a schedule until no single unit can do better in the room the others leave, or the time is up.
 *
 * @param problem units, pools and pairs
 * @param arcs    steps of each unit
 * @param from    `schedule` within all pools and pairs; `pace`: whether to go on
 * @returns schedule that costs no more
 * @range  any
 * @source coordinate descent
 * @check  tests/core/plan/solve-plan.test.ts
 */
export async function improveInTurn(
  problem: PlanProblem,
  arcs: readonly { width: number; arcs: Float64Array }[],
  { schedule, pace }: { schedule: Schedule; pace: Pace },
): Promise<Schedule> {
  const room = makeRoom(problem);
  const best = schedule.map((options) => [...options]);
  best.forEach((options, unit) => {
    room.add(unit, options);
  });
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
    let hasGained = false;
    for (let unit = 0; unit < best.length; unit++) {
      await pace.pause();
      if (!pace.hasTime()) return best;
      const { width, arcs: steps } = arcs[unit]!;
      const before = alongPath(width, steps, best[unit]!);
      room.remove(unit, best[unit]!);
      const prices = Float64Array.from({ length: width - 1 }, (_, option) =>
        room.fits(unit, option) ? 0 : Number.POSITIVE_INFINITY,
      );
      const path = cheapestPath({ width, arcs: steps, prices });
      if (path !== null && path.cost < before - SMALLEST_GAIN * Math.abs(before)) {
        best[unit] = path.options;
        hasGained = true;
      }
      room.add(unit, best[unit]!);
    }
    if (!hasGained) break;
  }
  return best;
}
