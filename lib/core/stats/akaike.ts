/**
 * Akaike's criterion for least squares, corrected for small samples: n·ln(RSS/n) + 2p + 2p(p + 1)/(n − p − 1).
 * With autocorrelated noise, RSS and n are those of the whitened values, which are independent.
 *
 * @param residualSumOfSquares (weighted, whitened) RSS [any unit squared], > 0
 * @param parameters number of fitted parameters p, the variance counted [-]
 * @param count number of values n [-]
 * @returns [-], smaller is better; Infinity where n ≤ p + 1
 * @range n ≥ 1
 * @source Burnham & Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002, sect. 2.2 and 2.4
 * @check tests/published/trend-statistics.test.ts
 */
export function aicc(residualSumOfSquares: number, parameters: number, count: number): number {
  const room = count - parameters - 1;
  if (!(room > 0)) return Number.POSITIVE_INFINITY;
  return (
    count * Math.log(residualSumOfSquares / count) +
    2 * parameters +
    (2 * parameters * (parameters + 1)) / room
  );
}

/**
 * Akaike weights: exp(−Δ/2) of each criterion's distance Δ from the least, made to add to 1.
 *
 * @param criteria AICc of each model [-]; Infinity leaves a model out
 * @returns weights in the same order [-], adding to 1; all 0 where every criterion is infinite
 * @range any
 * @source Burnham & Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002, sect. 2.9
 * @check tests/published/trend-statistics.test.ts
 */
export function akaikeWeights(criteria: readonly number[]): number[] {
  const least = Math.min(...criteria);
  if (!Number.isFinite(least)) return criteria.map(() => 0);
  const raw = criteria.map((criterion) => Math.exp((least - criterion) / 2));
  const sum = raw.reduce((total, weight) => total + weight, 0);
  return raw.map((weight) => weight / sum);
}
