import { tieGroups } from '../stats/mann-kendall';
import { normalTwoSided } from '../stats/normal';

/** Result of the rank test of two samples. */
export type MannWhitney = {
  /** Pairs in which the value of the first sample is the larger one, ties counted half. */
  u: number;
  /** Two-sided probability of a U as far from its mean without a difference. */
  probability: number;
};

/**
 * Mann–Whitney rank test of two independent samples: normal approximation with tie and continuity corrections.
 *
 * @param first  sample [any unit], m values
 * @param second sample [same unit], n values
 * @returns U of the first sample and two-sided probability [-]; probability 1 where all values are equal or a sample is empty
 * @range  the approximation is fair from about 5 values in each sample on
 * @source Mann & Whitney, Ann. Math. Stat. 18 (1947) 50-60; ties: Lehmann, Nonparametrics: Statistical Methods Based on Ranks,
 *   1975, sect. 1.4
 * @check  tests/core/cycles/mann-whitney.test.ts
 */
export function mannWhitney(first: ArrayLike<number>, second: ArrayLike<number>): MannWhitney {
  const m = first.length;
  const n = second.length;
  let u = 0;
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < n; j++) u += (Math.sign(first[i]! - second[j]!) + 1) / 2;
  }
  const all = m + n;
  const tied = tieGroups([...Array.from(first), ...Array.from(second)]);
  const ties = tied.reduce((sum, t) => sum + t * (t * t - 1), 0);
  const variance = all < 2 ? 0 : ((m * n) / 12) * (all + 1 - ties / (all * (all - 1)));
  const distance = Math.max(0, Math.abs(u - (m * n) / 2) - 0.5);
  return { u, probability: variance > 0 ? normalTwoSided(distance / Math.sqrt(variance)) : 1 };
}
