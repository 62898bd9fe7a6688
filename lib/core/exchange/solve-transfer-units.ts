/** Stop when the last step is this small relative to the NTU [-]: the step after it would be below 1e-16. */
const STEP_TOLERANCE = 1e-12;
/** Stop when the bracket is a few ulp wide [-]. */
const BRACKET_TOLERANCE = 4 * Number.EPSILON;
/** Secant steps granted before every second step halves the bracket. */
const FREE_STEPS = 10;
const MAXIMUM_STEPS = 200;

/** Where to look: an NTU [-] below the root, and the NTU [-] up to which the function rises. */
export type TransferUnitsBracket = { low: number; largest: number };

/**
 * NTU at which a rising function of NTU reaches a goal: secant steps in a bracket, halved (geometrically) where they leave it.
 *
 * The function should be the effectiveness *straightened*, so that it is nearly proportional to NTU and few steps are needed;
 * then this is several times faster than a general root finder, and it runs once per reading.
 *
 * @param straightened rising function of NTU up to `largest`, 0 at 0 [-]
 * @param goal         its value at the root [-], > 0
 * @param bracket      low: an NTU at or below the root, > 0; largest: where to give up [-]
 * @returns NTU [-]; NaN if the goal is not reached up to `largest`
 * @range any
 * @source Press et al., Numerical Recipes, 3rd ed. 2007, sec. 9.2 (secant) and 9.4 (safeguard by bracket)
 * @check tests/core/exchange/transfer-units.test.ts
 */
export function solveTransferUnits(
  straightened: (ntu: number) => number,
  goal: number,
  { low, largest }: TransferUnitsBracket,
): number {
  if (!(low <= largest)) return Number.NaN;
  let lower = low;
  let upper = largest;
  let before = low;
  let missBefore = straightened(low) / goal - 1;
  // Equal already to the last digit, as at very small NTU.
  if (missBefore >= 0) return low;
  let ntu = Math.min(low / (1 + missBefore), largest);
  for (let step = 0; step < MAXIMUM_STEPS && upper - lower > BRACKET_TOLERANCE * upper; step++) {
    const miss = straightened(ntu) / goal - 1;
    if (miss === 0) return ntu;
    if (miss < 0) lower = ntu;
    else upper = ntu;
    let next = ntu - (miss * (ntu - before)) / (miss - missBefore);
    const isInside = next > lower && next < upper;
    if (isInside && Math.abs(next - ntu) <= STEP_TOLERANCE * ntu) return next;
    if (!isInside || (step > FREE_STEPS && step % 2 === 0)) next = Math.sqrt(lower * upper);
    if (miss < Number.POSITIVE_INFINITY) {
      before = ntu;
      missBefore = miss;
    }
    ntu = next;
  }
  if (upper < largest) return lower;
  return straightened(largest) >= goal ? largest : Number.NaN;
}
