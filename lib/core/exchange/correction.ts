import type { Arrangement, Side } from './exchanger';
import { counterCurrentTransferUnits } from './pure-flow';
import { numberOfTransferUnits } from './transfer-units';

/**
 * Correction F of the counter-current logarithmic mean difference, so that Q = UA·F·LMTD: the NTU that pure
 * counter-current flow would need for this effectiveness over the NTU that the arrangement needs.
 *
 * @param arrangement   how the streams pass each other; RangeError if it is not supported [-]
 * @param effectiveness [-], 0 to below `maximumEffectiveness`
 * @param capacityRatio Cr = Cmin/Cmax [-], 0 to 1
 * @param smallerSide   stream of the smaller capacity rate [-]
 * @returns F [-], above 0 to 1; 1 at effectiveness 0; NaN wherever `numberOfTransferUnits` is
 * @range effectiveness 0 to `maximumEffectiveness`, capacityRatio 0 to 1
 * @source Shah & Sekulić, Fundamentals of Heat Exchanger Design, 2003, sec. 3.7 (F = NTU counter-current / NTU)
 * @check tests/published/mean-difference.test.ts
 */
export function correctionFactor(
  arrangement: Arrangement,
  effectiveness: number,
  capacityRatio: number,
  smallerSide: Side,
): number {
  const ntu = numberOfTransferUnits(arrangement, effectiveness, capacityRatio, smallerSide);
  if (ntu === 0) return 1;
  return counterCurrentTransferUnits(effectiveness, capacityRatio) / ntu;
}

/**
 * Correction F of n shells with two tube passes each, in closed form from the temperatures alone: the route independent of ε-NTU.
 *
 * @param ratio         R = (Thi − Tho)/(Tco − Tci) [-], ≥ 0
 * @param coldEfficiency P = (Tco − Tci)/(Thi − Tci) [-], 0 to 1
 * @param shells        shell passes in series [-], ≥ 1
 * @returns F [-]; NaN where this number of shells cannot reach P
 * @range any finite R
 * @source Bowman, Mueller & Nagle, Mean temperature difference in design, Trans. ASME 62 (1940) 283-294
 * @check tests/published/mean-difference.test.ts
 */
export function shellCorrection(ratio: number, coldEfficiency: number, shells: number): number {
  const isPossible = coldEfficiency >= 0 && coldEfficiency < 1 && ratio >= 0 && ratio * coldEfficiency < 1;
  if (!isPossible) return Number.NaN;
  if (coldEfficiency === 0) return 1;
  const one = singleShellEfficiency(ratio, coldEfficiency, shells);
  const root = Math.sqrt(1 + ratio * ratio);
  const counter = counterLogarithm(ratio, one);
  const actual = Math.log((2 - one * (1 + ratio - root)) / (2 - one * (1 + ratio + root)));
  return (root * counter) / actual;
}

/** P of each of n equal shells that together reach P; the limit at R = 1 included. */
function singleShellEfficiency(ratio: number, coldEfficiency: number, shells: number): number {
  const gap = ratio - 1;
  const share = counterLogarithm(ratio, coldEfficiency) / shells;
  if (gap === 0) return share / (1 + share);
  const drop = -Math.expm1(-share * gap);
  return drop / (gap + drop);
}

/** ln((1 − P)/(1 − P·R))/(R − 1), and its limit P/(1 − P) at R = 1. */
function counterLogarithm(ratio: number, coldEfficiency: number): number {
  const gap = ratio - 1;
  const driven = coldEfficiency / (1 - coldEfficiency * ratio);
  return gap === 0 ? driven : Math.log1p(driven * gap) / gap;
}
