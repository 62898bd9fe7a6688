import { crossingAge, type TrueGrowth, trueFouling, trueGrowth } from './true-growth';
import type { CleaningPlan, UnitPlan } from './unit-plan';

const MS_PER_HOUR = 3_600_000;
export const MS_PER_DAY = 86_400_000;
/** Local hour at which work on a unit begins. */
const START_OF_SHIFT = 7;

export type TrueCleaning = {
  /** Instant at which the unit was taken out [ms]; it stands still for `durationMs` from there. */
  at: number;
  durationMs: number;
  isRecorded: boolean;
  method: string | null;
  cost: number | null;
  /** Fouling before and after [m²·K/W]. */
  before: number;
  after: number;
  recovered: number;
};

export type TrueCycle = {
  /** Instant from which ages count [ms]: the cleaning; for the first cycle of a record it lies before the record. */
  start: number;
  growth: TrueGrowth;
  /** Fouling resistance that counts as the limit [m²·K/W]. */
  limit: number;
  /** Age [days] and instant [ms] at which the growth reaches the limit, had nobody cleaned before; null: never. */
  crossingAgeDays: number | null;
  crossesAt: number | null;
};

/** The cycles and cleanings of a plan between two instants [ms], oldest first. */
export function trueCycles(
  plan: UnitPlan,
  limit: number,
  { start, end }: { start: number; end: number },
): { cycles: TrueCycle[]; cleanings: TrueCleaning[] } {
  const firstStart = start - plan.first.ageDays * MS_PER_DAY;
  const cycles = [cycleFrom(firstStart, trueGrowth(plan.first.growth, limit, 0), limit)];
  const cleanings: TrueCleaning[] = [];
  for (const planned of plan.cleanings) {
    const at = shiftStart(end - planned.daysAgo * MS_PER_DAY, plan.utcOffsetHours);
    const running = cycles.at(-1)!;
    if (at <= start || at <= running.start) continue;
    const before = trueFouling(running.growth, (at - running.start) / MS_PER_DAY);
    const after = before * (1 - planned.recovers);
    cleanings.push({ ...done(planned), at, before, after });
    cycles.push(cycleFrom(at, trueGrowth(planned.growth, limit, after), limit));
  }
  return { cycles, cleanings };
}

function done(planned: CleaningPlan): Omit<TrueCleaning, 'at' | 'before' | 'after'> {
  const { isRecorded, method, cost, recovers } = planned;
  return { isRecorded, method, cost, recovered: recovers, durationMs: planned.durationHours * MS_PER_HOUR };
}

function cycleFrom(start: number, growth: TrueGrowth, limit: number): TrueCycle {
  const age = crossingAge(growth, limit);
  return {
    start,
    growth,
    limit,
    crossingAgeDays: age,
    crossesAt: age === null ? null : start + age * MS_PER_DAY,
  };
}

/** The start of the shift on the local day of an instant. */
export function shiftStart(instant: number, utcOffsetHours: number): number {
  const offset = utcOffsetHours * MS_PER_HOUR;
  const midnight = Math.floor((instant + offset) / MS_PER_DAY) * MS_PER_DAY - offset;
  return midnight + START_OF_SHIFT * MS_PER_HOUR;
}
