/** The four terminal temperatures of a unit [°C]. */
export type TerminalTemperatures = { hotIn: number; hotOut: number; coldIn: number; coldOut: number };

/**
 * Logarithmic mean of two terminal temperature differences: (d₁ − d₂)/ln(d₁/d₂), and their common value where they are equal.
 *
 * @param d1 temperature difference at one end [K]
 * @param d2 temperature difference at the other end [K]
 * @returns [K], between d1 and d2; 0 if either is 0 (the limit: no finite conductance gives it); NaN if either is negative
 * @range any; relative error a few 1e-16 however near d1 and d2 are
 * @source Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed. 2007, eq. 11.15
 * @check tests/published/mean-difference.test.ts
 */
export function logMeanDifference(d1: number, d2: number): number {
  if (!(d1 >= 0 && d2 >= 0)) return Number.NaN;
  const small = Math.min(d1, d2);
  if (small === 0) return 0;
  const difference = Math.max(d1, d2) - small;
  // log1p keeps every digit of ln(d1/d2) as the ratio goes to 1; equal differences need the limit itself.
  return difference === 0 ? small : difference / Math.log1p(difference / small);
}

/**
 * Logarithmic mean temperature difference of pure counter-current flow between the given temperatures.
 *
 * @param temperatures the four terminal temperatures [°C]
 * @returns [K]; 0 if a terminal difference is 0; NaN if one is negative
 * @range any
 * @source Incropera et al., 6th ed. 2007, eqs. 11.15 and 11.17
 * @check tests/published/mean-difference.test.ts
 */
export function counterCurrentLmtd({ hotIn, hotOut, coldIn, coldOut }: TerminalTemperatures): number {
  return logMeanDifference(hotIn - coldOut, hotOut - coldIn);
}
