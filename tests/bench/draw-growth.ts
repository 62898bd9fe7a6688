import type { Random } from '@/lib/core/stats/random';
import type { GrowthPlan } from '@/seed/generate/unit-plan';
import { MECHANISMS, type Mechanism, type Ranges } from './ranges';

/** How the deposit of one unit grows on the whole; each cycle departs from it. */
export type Habit = {
  mechanism: Mechanism;
  lifeDays: number;
  delayShare: number;
  exponent: number;
  asymptoteShare: number;
  rateSpread: number;
};

/** Lives beyond these [days] are drawn back to them (the fleet's stated range). */
const SHORTEST_LIFE = 80;
const LONGEST_LIFE = 400;
/** A changed deposit grows this much slower or faster at least, and at most [-] (own choice: a strong change). */
const STRONG_CHANGE = [1.5, 2] as const;

export function drawHabit(random: Random, ranges: Ranges, mechanism: Mechanism): Habit {
  return {
    mechanism,
    lifeDays: between(random, ...ranges.lifeDays),
    delayShare: between(random, ...ranges.delayShare),
    exponent: between(random, ...ranges.exponent),
    asymptoteShare: between(random, ...ranges.asymptoteShare),
    rateSpread: between(random, ...ranges.rateSpread),
  };
}

/** Another mechanism at the same rate, or the same at a strongly different rate. */
export function changedHabit(random: Random, habit: Habit): Habit {
  if (random.uniform() < 0.5) {
    const others = MECHANISMS.filter((mechanism) => mechanism !== habit.mechanism);
    return { ...habit, mechanism: oneOf(random, others) };
  }
  const factor = between(random, ...STRONG_CHANGE);
  const lifeDays = habit.lifeDays * (random.uniform() < 0.5 ? factor : 1 / factor);
  return { ...habit, lifeDays: clamp(lifeDays, SHORTEST_LIFE, LONGEST_LIFE) };
}

/** The growth of one cycle: rate and form vary from cycle to cycle about the unit's habit. */
export function drawGrowth(random: Random, habit: Habit, ranges: Ranges): GrowthPlan {
  const spread = (deviation: number) => Math.exp(deviation * random.normal());
  const limitAtDays = clamp(habit.lifeDays * spread(habit.rateSpread), SHORTEST_LIFE, LONGEST_LIFE);
  const form = spread(ranges.formSpread);
  switch (habit.mechanism) {
    case 'linear':
      return { kind: 'linear', limitAtDays };
    case 'delayed-linear': {
      const delayDays = clamp(habit.delayShare * spread(ranges.delaySpread), 0, 0.7) * limitAtDays;
      return { kind: 'delayed-linear', delayDays, limitAtDays };
    }
    case 'falling-rate':
      return { kind: 'falling-rate', exponent: clamp(habit.exponent * form, 0.35, 0.95), limitAtDays };
    case 'asymptotic': {
      const asymptoteShare = 1 + (habit.asymptoteShare - 1) * form;
      const timeConstantDays = -limitAtDays / Math.log1p(-1 / asymptoteShare);
      return { kind: 'asymptotic', asymptoteShare, timeConstantDays };
    }
  }
}

export function between(random: Random, low: number, high: number): number {
  return low + (high - low) * random.uniform();
}

export function oneOf<T>(random: Random, list: readonly T[]): T {
  return list[Math.floor(random.uniform() * list.length)]!;
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}
