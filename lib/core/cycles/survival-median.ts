/** How long something lasted [days]; `isOver` false: it still lasted when last seen. */
export type Lifetime = { days: number; isOver: boolean };

/**
 * Median lifetime where some still last: the first time at which the Kaplan–Meier estimate of those lasting longer is 1/2 or less.
 *
 * @param lifetimes days ≥ 0 with whether they are over, any order
 * @returns [days]; null where more than half still last: not yet to be told
 * @range  any count; whoever stops being seen must not do so because of what is measured
 * @source Kaplan & Meier, Nonparametric estimation from incomplete observations, J. Am. Stat. Assoc. 53 (1958) 457-481
 * @check  tests/core/cycles/survival-median.test.ts
 */
export function survivalMedian(lifetimes: readonly Lifetime[]): number | null {
  // At the same time, those that end come before those last seen.
  const ordered = [...lifetimes].sort((a, b) => a.days - b.days || Number(b.isOver) - Number(a.isOver));
  let lasting = 1;
  for (let k = 0; k < ordered.length; k++) {
    const { days, isOver } = ordered[k]!;
    if (isOver) lasting *= 1 - 1 / (ordered.length - k);
    if (lasting <= HALF) return days;
  }
  return null;
}

/** One half, with room for the rounding of a product of fractions. */
const HALF = 0.5 + 1e-12;
