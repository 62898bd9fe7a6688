import { makeRandom, type Random } from '../stats/random';
import { cheapestPath } from './cheapest-path';
import type { Pace } from './pace';
import type { PlanProblem, Schedule } from './plan-problem';
import { makeRoom, type Room } from './room';
import { alongPath } from './unit-arcs';

/** The same problem is always searched in the same order. */
const SEED = 1;
/** Units taken out at a time: from so many with cleanings near one instant, to so many, and one from anywhere. */
const FEWEST_OUT = 2;
const MOST_OUT = 8;
/** Cleanings within this of an instant are near it [days]. */
const NEAR_DAYS = 21;
/** Tries for each unit of the problem, and how often the clock is looked at. */
const TRIES_PER_UNIT = 150;
const TRIES_BETWEEN_LOOKS = 32;

/**
 * Improves a schedule by taking out a few units at a time that want the same weeks, and placing them anew in another order
 * where that costs less.
 *
 * @param problem  units, pools and pairs
 * @param arcs     steps of each unit
 * @param from     `schedule` within all pools and pairs; `pace`: whether to go on
 * @returns schedule that costs no more
 * @range  any
 * @source Schrimpf et al., Journal of Computational Physics 159 (2000) 139-171 (ruin and recreate)
 * @check  tests/core/plan/solve-plan.test.ts
 */
export async function recreate(
  problem: PlanProblem,
  arcs: readonly { width: number; arcs: Float64Array }[],
  from: { schedule: Schedule; pace: Pace },
): Promise<Schedule> {
  const random = makeRandom(SEED);
  const room = makeRoom(problem);
  const best = from.schedule.map((options) => [...options]);
  best.forEach((options, unit) => {
    room.add(unit, options);
  });
  const work: Recreation = { problem, arcs, room, best };
  const tries = TRIES_PER_UNIT * best.length;
  for (let tried = 0; tried < tries; tried++) {
    if (tried % TRIES_BETWEEN_LOOKS === 0) {
      await from.pace.pause();
      if (!from.pace.hasTime()) break;
    }
    recreateSome(work, chooseUnits(work, random));
  }
  return best;
}

type Recreation = {
  problem: PlanProblem;
  arcs: readonly { width: number; arcs: Float64Array }[];
  room: Room;
  best: number[][];
};

function chooseUnits({ problem, best }: Recreation, random: Random): number[] {
  const instant = problem.from + random.uniform() * (problem.to - problem.from);
  const near = best.flatMap((options, unit) => {
    const starts = options.map((option) => problem.units[unit]!.options[option]!.start);
    return starts.some((start) => Math.abs(start - instant) < NEAR_DAYS) ? [unit] : [];
  });
  const wanted = FEWEST_OUT + Math.floor(random.uniform() * (MOST_OUT - FEWEST_OUT + 1));
  const chosen = new Set<number>([Math.floor(random.uniform() * best.length)]);
  for (let tries = 0; tries < 2 * wanted && near.length > 0 && chosen.size < wanted; tries++) {
    chosen.add(near[Math.floor(random.uniform() * near.length)]!);
  }
  return shuffled([...chosen], random);
}

function shuffled(units: number[], random: Random): number[] {
  for (let i = units.length - 1; i > 0; i--) {
    const j = Math.floor(random.uniform() * (i + 1));
    [units[i], units[j]] = [units[j]!, units[i]!];
  }
  return units;
}

function recreateSome({ problem, arcs, room, best }: Recreation, units: readonly number[]): void {
  let before = 0;
  for (const unit of units) {
    before += alongPath(arcs[unit]!.width, arcs[unit]!.arcs, best[unit]!);
    room.remove(unit, best[unit]!);
    // A locked cleaning stays where it is while the others are placed.
    room.add(unit, problem.units[unit]!.locked);
  }
  let after = 0;
  const placed: number[][] = [];
  for (const unit of units) {
    room.remove(unit, problem.units[unit]!.locked);
    const prices = new Float64Array(arcs[unit]!.width - 1);
    for (let option = 0; option < prices.length; option++) {
      prices[option] = room.fits(unit, option) ? 0 : Number.POSITIVE_INFINITY;
    }
    const path = cheapestPath({ ...arcs[unit]!, prices });
    after += path?.cost ?? Number.POSITIVE_INFINITY;
    placed.push(path?.options ?? [...problem.units[unit]!.locked]);
    room.add(unit, placed.at(-1)!);
  }
  const isBetter = after < before;
  units.forEach((unit, at) => {
    if (isBetter) best[unit] = placed[at]!;
    else {
      room.remove(unit, placed[at]!);
      room.add(unit, best[unit]!);
    }
  });
}
