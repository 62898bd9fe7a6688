/** Two-sided 95 % point of the standard normal distribution [-]. */
const NORMAL_95 = 1.959963984540054;

/**
 * 95 % interval of a probability from successes among independent trials (Wilson's score interval).
 *
 * @param successes count, 0 to trials
 * @param trials    count
 * @returns lower and upper end [-], within 0 to 1; 0 and 1 without any trial
 * @range  any count; RangeError where successes do not lie in 0 to trials
 * @source Wilson, Probable inference, the law of succession, and statistical inference, J. Am. Stat. Assoc. 22 (1927) 209-212
 * @check  tests/core/stats/binomial-interval.test.ts
 */
export function binomialInterval(successes: number, trials: number): { low: number; high: number } {
  if (!(successes >= 0 && successes <= trials)) throw new RangeError('successes must lie in 0 to trials');
  if (trials === 0) return { low: 0, high: 1 };
  const share = successes / trials;
  const square = NORMAL_95 ** 2 / trials;
  const centre = (share + square / 2) / (1 + square);
  const half = Math.sqrt(square * (share * (1 - share) + square / 4)) / (1 + square);
  return { low: Math.max(0, centre - half), high: Math.min(1, centre + half) };
}
