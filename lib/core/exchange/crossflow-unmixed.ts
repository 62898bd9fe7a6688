/** NTU beyond this is evaluated as this [-]: no exchanger comes near, and the series needs about NTU terms. */
export const LARGEST_NTU = 1000;
/** A capacity rate ratio times NTU this small changes the effectiveness by less than a double resolves [-]. */
const NEGLIGIBLE = 2 ** -57;
/** Any small positive start of the downward recurrence; it cancels in the end. */
const SEED = 1e-60;

/**
 * Effectiveness of cross-flow with neither fluid mixed, by the exact series
 * ε = 1/(Cr·NTU)·Σ P(n+1, NTU)·P(n+1, Cr·NTU), P the regularised lower incomplete gamma function.
 *
 * P(n+1, x) is the probability that a Poisson variable of mean x exceeds n. Its terms are summed downwards from a negligible one
 * and divided by their total (Miller's algorithm), so every sum is of positive terms and no digit is lost.
 *
 * @param ntu           UA/Cmin [-], ≥ 0; above 1000 taken as 1000
 * @param capacityRatio Cmin/Cmax [-], 0 to 1
 * @returns effectiveness [-], 0 to 1
 * @range relative error below 3e-15 up to NTU 100, 4e-14 up to 1000 (at Cr = 1 against 1 − exp(−2·NTU)·(I₀ + I₁)(2·NTU) in 40 digits)
 * @source Mason, Heat transfer in crossflow, Proc. 2nd US Nat. Congr. Appl. Mech. (1955) 801-803, as in Shah & Sekulić,
 *   Fundamentals of Heat Exchanger Design, 2003, Table 3.4
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function crossflowUnmixedEffectiveness(ntu: number, capacityRatio: number): number {
  const x = Math.min(ntu, LARGEST_NTU);
  const y = capacityRatio * x;
  if (y < NEGLIGIBLE) return -Math.expm1(-x);
  let termX = SEED;
  let tailX = 0;
  let n = lastTerm(x);
  const both = lastTerm(y);
  for (; n > both; n--) {
    tailX += termX;
    termX *= n / x;
  }
  let termY = SEED;
  let tailY = 0;
  let sum = 0;
  for (; n > 0; n--) {
    tailX += termX;
    termX *= n / x;
    tailY += termY;
    termY *= n / y;
    sum += tailX * tailY;
  }
  return Math.min(1, sum / ((tailX + termX) * (tailY + termY) * y));
}

/** A Poisson count that a mean of x exceeds with probability below 1e-17 (for small x: relative to x). */
function lastTerm(x: number): number {
  if (x < 0.01) return 10;
  return Math.ceil(x + 9 * Math.sqrt(x) + 22);
}
