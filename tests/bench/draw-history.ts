import type { Random } from '@/lib/core/stats/random';
import { crossingAge, trueFouling, trueGrowth } from '@/seed/generate/true-growth';
import type { CleaningPlan, GrowthPlan } from '@/seed/generate/unit-plan';
import { between, changedHabit, drawGrowth, drawHabit, type Habit, oneOf } from './draw-growth';
import type { Mechanism, Ranges, Scenario } from './ranges';

/** Full cycles of a unit after the one that was running when its record began. */
const FULL_CYCLES = [5, 6, 7];
const CLEANING_HOURS = [8, 12, 24, 48];
/** A unit that is to teach its clean reference is cleaned thoroughly first (common practice). */
const THOROUGH = [0.98, 1] as const;

/** One cycle as planned, times in days since the beginning of the record. */
export type PlannedCycle = {
  mechanism: Mechanism;
  growth: GrowthPlan;
  startDays: number;
  endDays: number;
  /** Of the cleaning that begins it: share taken off, and whether somebody wrote it down. */
  recovers: number;
  isRecorded: boolean;
  /** Whether the deposit has changed its ways since an earlier cycle. */
  hasChanged: boolean;
};

export type History = {
  /** Age of the running cycle when the record begins [days]. */
  firstAgeDays: number;
  /** Oldest first; the first was already running. */
  cycles: PlannedCycle[];
};

type HistoryDraw = { ranges: Ranges; scenario: Scenario; mechanism: Mechanism; isLearned: boolean };

/** Cycles one after another, each run to its limit or a little beyond, then cleaned. */
export function drawHistory(random: Random, draw: HistoryDraw): History {
  const habits = drawHabits(random, draw);
  const cycles: PlannedCycle[] = [];
  let left = 0;
  let firstAgeDays = 0;
  habits.forEach((habit, index) => {
    const growth = drawGrowth(random, habit, draw.ranges);
    const cleaning = drawCleaning(random, draw, index === 1);
    const overrun = between(random, ...draw.ranges.overrun);
    const { life, before } = runToLimit(growth, left * (1 - cleaning.recovers), overrun);
    if (index === 0) firstAgeDays = draw.scenario === 'young' ? life - 1 : life * between(random, 0, 0.5);
    const startDays = cycles.at(-1)?.endDays ?? -firstAgeDays;
    const hasChanged = habit !== habits[0];
    const { mechanism } = habit;
    cycles.push({ mechanism, growth, hasChanged, startDays, endDays: startDays + life, ...cleaning });
    left = before;
  });
  return { firstAgeDays, cycles };
}

/** The habit behind each cycle; of a young unit the record holds a last day of one cycle and the next. */
function drawHabits(random: Random, { ranges, scenario, mechanism }: HistoryDraw): Habit[] {
  const first = drawHabit(random, ranges, mechanism);
  if (scenario === 'young') return [first, first];
  const count = 1 + oneOf(random, FULL_CYCLES);
  const changesAt =
    random.uniform() < ranges.changing ? 2 + Math.floor(random.uniform() * (count - 2)) : count;
  const changed = changedHabit(random, first);
  return Array.from({ length: count }, (_, index) => (index < changesAt ? first : changed));
}

/** The cleaning that begins a cycle; the first one of a record is always written down. */
function drawCleaning(random: Random, { ranges, scenario, isLearned }: HistoryDraw, isFirst: boolean) {
  const isPartial = scenario === 'unrecorded' && random.uniform() < ranges.partial;
  const isForgotten = scenario === 'unrecorded' && random.uniform() < ranges.unrecorded;
  const usual = isPartial ? ranges.partialRecovers : ranges.recovers;
  const [low, high] = isFirst && isLearned ? THOROUGH : usual;
  return { recovers: between(random, low, high), isRecorded: isFirst || !isForgotten };
}

/** Life of a cycle that begins with a deposit `left` [share of the limit], and the deposit at its end. */
function runToLimit(growth: GrowthPlan, left: number, overrun: number): { life: number; before: number } {
  const truth = trueGrowth(growth, 1, left);
  const crossing = crossingAge(truth, 1)!;
  const life = Math.ceil(crossing * (1 + overrun)) + 1;
  return { life, before: trueFouling(truth, life) };
}

/** The cleanings as the generator of readings takes them, before a record's end [days since its beginning]. */
export function cleaningPlans(random: Random, { cycles }: History, endDays: number): CleaningPlan[] {
  return cycles.slice(1).map(({ startDays, growth, recovers, isRecorded }) => ({
    daysAgo: endDays - startDays,
    durationHours: oneOf(random, CLEANING_HOURS),
    recovers,
    isRecorded,
    method: null,
    cost: null,
    growth,
  }));
}
