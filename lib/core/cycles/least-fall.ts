/**
 * How large a fall of the fouling must be to count, and how near to that the sizes came that were compared with it: any other
 * least fall strictly between `below` and `above` would have decided alike.
 */
export type LeastFall = {
  /** [m²·K/W] */
  value: number;
  below: number;
  /** null: nothing was as large. */
  above: number | null;
};

/**
 * A least fall with which nothing has been compared yet.
 *
 * @param value [m²·K/W], ≥ 0
 * @returns it, with no size below or above
 * @range  any
 * @source none: bookkeeping only
 * @check  tests/core/cycles/least-fall.test.ts
 */
export function leastFallOf(value: number): LeastFall {
  return { value, below: 0, above: null };
}

/**
 * Whether a size reaches the least fall; it is noted how near it came.
 *
 * @param least what it is compared with; `below` and `above` move towards its value
 * @param size  [m²·K/W]
 * @returns true from the value on
 * @range  any
 * @source none: bookkeeping only
 * @check  tests/core/cycles/least-fall.test.ts
 */
export function isReached(least: LeastFall, size: number): boolean {
  if (size >= least.value) {
    least.above = least.above === null ? size : Math.min(least.above, size);
    return true;
  }
  if (size > least.below) least.below = size;
  return false;
}

/**
 * Whether everything that was compared with one least fall would have come out alike with another.
 *
 * @param least  what was compared with
 * @param value another least fall [m²·K/W]
 * @returns true where it is the same, or no size lies between
 * @range  any
 * @source none: bookkeeping only
 * @check  tests/core/cycles/least-fall.test.ts
 */
export function decidesAlike({ value: own, below, above }: LeastFall, value: number): boolean {
  return value === own || (value > below && (above === null || value < above));
}
