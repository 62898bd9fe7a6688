import { findRoot } from '../fit/brent';

/**
 * Effectiveness of cross-flow with the stream of larger capacity rate mixed, the smaller unmixed.
 *
 * @param ntu           UA/Cmin [-], ≥ 0
 * @param capacityRatio Cmin/Cmax [-], above 0 to 1
 * @returns effectiveness [-]
 * @range ntu 0 to Infinity
 * @source Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed. 2007, Table 11.3, eq. 11.33a
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function largerMixedEffectiveness(ntu: number, capacityRatio: number): number {
  return -Math.expm1(capacityRatio * Math.expm1(-ntu)) / capacityRatio;
}

/**
 * Number of transfer units of cross-flow, larger capacity rate mixed.
 *
 * @param effectiveness [-], 0 to below (1 − exp(−Cr))/Cr
 * @param capacityRatio Cmin/Cmax [-], above 0 to 1
 * @returns NTU [-]; Infinity or NaN from the limit on
 * @range any
 * @source Incropera et al., 6th ed. 2007, Table 11.4, eq. 11.33b
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function largerMixedTransferUnits(effectiveness: number, capacityRatio: number): number {
  return -Math.log1p(Math.log1p(-effectiveness * capacityRatio) / capacityRatio);
}

/**
 * Effectiveness of cross-flow with the stream of smaller capacity rate mixed, the larger unmixed.
 *
 * @param ntu           UA/Cmin [-], ≥ 0
 * @param capacityRatio Cmin/Cmax [-], above 0 to 1
 * @returns effectiveness [-]
 * @range ntu 0 to Infinity
 * @source Incropera et al., 6th ed. 2007, Table 11.3, eq. 11.34a
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function smallerMixedEffectiveness(ntu: number, capacityRatio: number): number {
  return -Math.expm1(Math.expm1(-capacityRatio * ntu) / capacityRatio);
}

/**
 * Number of transfer units of cross-flow, smaller capacity rate mixed.
 *
 * @param effectiveness [-], 0 to below 1 − exp(−1/Cr)
 * @param capacityRatio Cmin/Cmax [-], above 0 to 1
 * @returns NTU [-]; Infinity or NaN from the limit on
 * @range any
 * @source Incropera et al., 6th ed. 2007, Table 11.4, eq. 11.34b
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function smallerMixedTransferUnits(effectiveness: number, capacityRatio: number): number {
  return -Math.log1p(capacityRatio * Math.log1p(-effectiveness)) / capacityRatio;
}

/**
 * Effectiveness of cross-flow with both fluids mixed. Not monotonic: it falls again beyond `bothMixedPeak`.
 *
 * @param ntu           UA/Cmin [-], ≥ 0, finite
 * @param capacityRatio Cmin/Cmax [-], 0 to 1
 * @returns effectiveness [-]
 * @range any
 * @source Shah & Sekulić, Fundamentals of Heat Exchanger Design, 2003, Table 3.4
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function bothMixedEffectiveness(ntu: number, capacityRatio: number): number {
  // Multiplied through by NTU, so that no term is infinite at NTU = 0.
  return ntu / (overDecay(ntu) + overDecay(capacityRatio * ntu) - 1);
}

/**
 * NTU at which cross-flow with both fluids mixed is most effective: the root of ψ(NTU) + ψ(Cr·NTU) = 1 with
 * ψ(x) = (x/2 / sinh(x/2))², which is dε/dNTU = 0.
 *
 * @param capacityRatio Cmin/Cmax [-], above 0 to 1
 * @returns NTU [-], from 2.98 at Cr = 1 upwards
 * @range any
 * @source derivative of the formula in Shah & Sekulić, 2003, Table 3.4
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function bothMixedPeak(capacityRatio: number): number {
  const slope = (ntu: number) => bell(ntu) - bellShortfall(capacityRatio * ntu);
  // ψ(NTU) ≈ NTU²·exp(−NTU) meets (Cr·NTU)²/12 at ln(12/Cr²): the upper end lies safely beyond.
  return findRoot(slope, 2, 2 * Math.log(12 / (capacityRatio * capacityRatio)) + 2);
}

/** x/(1 − exp(−x)), 1 at x = 0. */
function overDecay(x: number): number {
  return x === 0 ? 1 : x / -Math.expm1(-x);
}

function bell(x: number): number {
  const half = x / 2 / Math.sinh(x / 2);
  return half * half;
}

/** 1 − ψ(x); by its series where the difference would lose digits. */
function bellShortfall(x: number): number {
  if (x > 0.1) return 1 - bell(x);
  const square = x * x;
  return square * (1 / 12 - square * (1 / 240 - square / 6048));
}
