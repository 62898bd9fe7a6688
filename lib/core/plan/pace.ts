/** How long work that may take long goes on, and how it lets others have their turn: handed in, the core knows no clock. */
export type Pace = {
  /** Whether there is time to go on. */
  hasTime: () => boolean;
  /** Asked in every long loop; rejects where the work is no longer wanted. */
  pause: () => Promise<void>;
};

/** To the end, and in one go. */
export const UNHURRIED: Pace = { hasTime: () => true, pause: async () => {} };

/** With less time left than this nothing is begun [s]. */
export const LEAST_TIME = 0.05;

/**
 * Pace of a part of the work.
 *
 * @param terms time left, and how others get their turn
 * @param share of the time left that the part may take [-]
 * @returns pace
 * @range  0 ≤ share ≤ 1
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function paceOf({ left, pause }: { left: () => number; pause: Pace['pause'] }, share = 1): Pace {
  const until = Math.max(left() * (1 - share), LEAST_TIME);
  return { hasTime: () => left() > until, pause };
}
