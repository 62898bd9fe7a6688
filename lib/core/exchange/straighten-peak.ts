/**
 * 1 − √(1 − share): makes an effectiveness that is flat at its peak nearly proportional to NTU up to it.
 *
 * @param share effectiveness over its maximum [-], 0 to 1; a hair above 1 by rounding counts as 1
 * @returns [-], 0 to 1, without loss of digits at small shares
 * @range any
 * @source a parabola at its vertex: 1 − share = (1 − straightened)²
 * @check tests/core/exchange/transfer-units.test.ts
 */
export function straightenPeak(share: number): number {
  return share / (1 + Math.sqrt(Math.max(0, 1 - share)));
}
