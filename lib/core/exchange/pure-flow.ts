/**
 * Effectiveness of pure counter-current flow, written so that nothing is lost as Cr → 1.
 *
 * @param ntu           UA over the capacity rate that the effectiveness refers to [-], ≥ 0
 * @param capacityRatio that capacity rate over the other [-], ≥ 0 (above 1 where it is the larger of the two)
 * @returns effectiveness [-], 0 to 1
 * @range ntu 0 to Infinity, relative error below 1e-15
 * @source Incropera, DeWitt, Bergman & Lavine, Fundamentals of Heat and Mass Transfer, 6th ed. 2007, Table 11.3, eq. 11.29a
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function counterCurrentEffectiveness(ntu: number, capacityRatio: number): number {
  // Seen from the other stream, so that the exponent below never grows.
  if (capacityRatio > 1) {
    return counterCurrentEffectiveness(ntu * capacityRatio, 1 / capacityRatio) / capacityRatio;
  }
  const gap = 1 - capacityRatio;
  if (gap === 0) return 1 / (1 + 1 / ntu);
  const decay = -Math.expm1(-ntu * gap);
  // 1 − Cr·exp(−NTU(1−Cr)) as a sum of positive terms: no difference of near-equal numbers.
  return decay / (gap + capacityRatio * decay);
}

/**
 * Number of transfer units of pure counter-current flow: the inverse of `counterCurrentEffectiveness`.
 *
 * @param effectiveness [-], 0 to below 1
 * @param capacityRatio Cmin/Cmax [-], 0 to 1
 * @returns NTU [-]; Infinity at effectiveness 1, NaN above
 * @range any Cr from 0 to 1
 * @source Incropera et al., 6th ed. 2007, Table 11.4, eq. 11.29b
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function counterCurrentTransferUnits(effectiveness: number, capacityRatio: number): number {
  if (!(effectiveness <= 1)) return Number.NaN;
  const gap = 1 - capacityRatio;
  const driven = effectiveness / (1 - effectiveness);
  return gap === 0 ? driven : Math.log1p(driven * gap) / gap;
}

/**
 * Effectiveness of pure co-current (parallel) flow.
 *
 * @param ntu           UA over the capacity rate that the effectiveness refers to [-], ≥ 0
 * @param capacityRatio that capacity rate over the other [-], ≥ 0
 * @returns effectiveness [-], 0 to 1/(1 + Cr)
 * @range ntu 0 to Infinity, relative error below 1e-15
 * @source Incropera et al., 6th ed. 2007, Table 11.3, eq. 11.28a
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function coCurrentEffectiveness(ntu: number, capacityRatio: number): number {
  return -Math.expm1(-ntu * (1 + capacityRatio)) / (1 + capacityRatio);
}

/**
 * Number of transfer units of pure co-current flow: the inverse of `coCurrentEffectiveness`.
 *
 * @param effectiveness [-], 0 to below 1/(1 + Cr)
 * @param capacityRatio Cmin/Cmax [-], 0 to 1
 * @returns NTU [-]; Infinity at the limit, NaN above
 * @range any Cr from 0 to 1
 * @source Incropera et al., 6th ed. 2007, Table 11.4, eq. 11.28b
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function coCurrentTransferUnits(effectiveness: number, capacityRatio: number): number {
  return -Math.log1p(-effectiveness * (1 + capacityRatio)) / (1 + capacityRatio);
}
