import { normalTwoSided } from './normal';

/** Largest sample for which the exact distribution is used (without ties). */
export const EXACT_COUNT = 10;

/** Result of the rank test for a monotone trend. */
export type MannKendall = {
  /** Kendall's S: concordant minus discordant pairs. */
  s: number;
  /** Variance of S without a trend, corrected for ties. */
  variance: number;
  /** S moved one towards zero and divided by its standard deviation. */
  z: number;
  /** Two-sided probability of a |z| as large without a trend. */
  probability: number;
  /** Same by counting permutations; null with ties or more than EXACT_COUNT values. */
  exactProbability: number | null;
};

/**
 * Mann–Kendall rank test for a monotone trend, with tie and continuity corrections.
 *
 * @param values series [any unit], in order of time
 * @returns S, its variance, z and two-sided probabilities [-]
 * @range any finite series; cost grows with the square of the length
 * @source Kendall, Rank Correlation Methods, 4th ed. 1975; Gilbert, Statistical Methods for Environmental Pollution Monitoring, 1987, sect. 16.4
 * @check tests/published/trend-statistics.test.ts
 */
export function mannKendall(values: ArrayLike<number>): MannKendall {
  const n = values.length;
  const s = kendallS(values);
  const ties = tieGroups(values);
  let variance = n * (n - 1) * (2 * n + 5);
  for (const t of ties) variance -= t * (t - 1) * (2 * t + 5);
  variance = Math.max(0, variance / 18);
  const z = variance > 0 ? (s - Math.sign(s)) / Math.sqrt(variance) : 0;
  const isExact = ties.length === 0 && n <= EXACT_COUNT && n >= 2;
  return {
    s,
    variance,
    z,
    probability: normalTwoSided(z),
    exactProbability: isExact ? Math.min(1, 2 * exactUpperTail(n, Math.abs(s))) : null,
  };
}

function kendallS(values: ArrayLike<number>): number {
  let s = 0;
  for (let i = 1; i < values.length; i++) {
    for (let j = 0; j < i; j++) s += Math.sign(values[i]! - values[j]!);
  }
  return s;
}

/**
 * Sizes of the groups of equal values, in ascending order of the value.
 *
 * @param values sample [any unit]
 * @returns sizes ≥ 2 [-]
 * @range any finite sample
 * @source Kendall, Rank Correlation Methods, 4th ed. 1975, ch. 3
 * @check tests/published/trend-statistics.test.ts
 */
export function tieGroups(values: ArrayLike<number>): number[] {
  const sorted = Float64Array.from(values).sort();
  const groups: number[] = [];
  let run = 1;
  for (let i = 1; i <= sorted.length; i++) {
    if (i < sorted.length && sorted[i] === sorted[i - 1]) run++;
    else {
      if (run > 1) groups.push(run);
      run = 1;
    }
  }
  return groups;
}

/**
 * Exact P(S ≥ s) of Kendall's S for n values without ties, by counting permutations by their inversions.
 *
 * @param n number of values [-], 2 to 30
 * @param s value of S [-]
 * @returns probability [-], 0 to 1
 * @range n up to 30 (counts stay exact enough in doubles)
 * @source Gilbert, Statistical Methods for Environmental Pollution Monitoring, 1987, table A18
 * @check tests/published/trend-statistics.test.ts
 */
export function exactUpperTail(n: number, s: number): number {
  let shares = [1];
  for (let size = 2; size <= n; size++) {
    const next = new Array<number>(shares.length + size - 1).fill(0);
    shares.forEach((share, inversions) => {
      for (let k = 0; k < size; k++) next[inversions + k]! += share / size;
    });
    shares = next;
  }
  const pairs = (n * (n - 1)) / 2;
  return shares.reduce((sum, share, inversions) => (pairs - 2 * inversions >= s ? sum + share : sum), 0);
}
