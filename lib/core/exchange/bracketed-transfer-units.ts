import { bothMixedEffectiveness, bothMixedPeak } from './crossflow-mixed';
import { crossflowUnmixedEffectiveness, LARGEST_NTU } from './crossflow-unmixed';
import { type OnePassAgainst, onePassEffectiveness, onePassMaximum } from './plate-passes';
import { counterCurrentTransferUnits } from './pure-flow';
import { solveTransferUnits } from './solve-transfer-units';
import { straightenPeak } from './straighten-peak';

/**
 * Number of transfer units of cross-flow with neither fluid mixed. Solved on the counter-current NTU of the effectiveness, F·NTU,
 * which is nearly proportional to NTU.
 *
 * @param effectiveness [-], above 0 to below 1
 * @param capacityRatio Cmin/Cmax [-], above 0 to 1
 * @returns NTU [-]; NaN beyond NTU 1000 (only effectiveness above 0.98 at Cr near 1)
 * @range any
 * @source inverse of the series in `crossflowUnmixedEffectiveness`
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function unmixedTransferUnits(effectiveness: number, capacityRatio: number): number {
  const low = counterCurrentTransferUnits(effectiveness, capacityRatio);
  const straightened = (ntu: number) =>
    counterCurrentTransferUnits(crossflowUnmixedEffectiveness(ntu, capacityRatio), capacityRatio);
  return solveTransferUnits(straightened, low, { low, largest: LARGEST_NTU });
}

/**
 * Smaller number of transfer units of cross-flow with both fluids mixed. With m the maximum, 1 − √(1 − ε/m) is nearly
 * proportional to NTU up to the peak, where ε itself is flat.
 *
 * @param effectiveness [-], above 0 to the maximum
 * @param capacityRatio Cmin/Cmax [-], above 0 to 1
 * @returns NTU [-], at most `bothMixedPeak`; NaN above the maximum
 * @range any
 * @source inverse of `bothMixedEffectiveness`
 * @check tests/core/exchange/transfer-units.test.ts
 */
export function bothMixedTransferUnits(effectiveness: number, capacityRatio: number): number {
  const peak = bothMixedPeak(capacityRatio);
  const maximum = bothMixedEffectiveness(peak, capacityRatio);
  if (effectiveness >= maximum) return effectiveness === maximum ? peak : Number.NaN;
  const low = counterCurrentTransferUnits(effectiveness, capacityRatio);
  const straightened = (ntu: number) => straightenPeak(bothMixedEffectiveness(ntu, capacityRatio) / maximum);
  return solveTransferUnits(straightened, straightenPeak(effectiveness / maximum), { low, largest: peak });
}

/**
 * Number of transfer units of a plate unit with one pass against two or three. With m the limit, −ln(1 − ε/m) is nearly
 * proportional to NTU.
 *
 * @param passes        passes of the other stream, their flow, and which side is the smaller
 * @param effectiveness [-], above 0 to below `onePassMaximum`
 * @param capacityRatio Cmin/Cmax [-], above 0 to 1
 * @returns NTU [-]; NaN from the limit on and beyond NTU 1000
 * @range any
 * @source inverse of `onePassEffectiveness`
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function onePassTransferUnits(
  passes: OnePassAgainst,
  effectiveness: number,
  capacityRatio: number,
): number {
  const maximum = onePassMaximum(passes, capacityRatio);
  if (effectiveness >= maximum) return Number.NaN;
  const low = counterCurrentTransferUnits(effectiveness, capacityRatio);
  const straightened = (ntu: number) =>
    straightenLimit(onePassEffectiveness(passes, ntu, capacityRatio) / maximum);
  return solveTransferUnits(straightened, straightenLimit(effectiveness / maximum), {
    low,
    largest: LARGEST_NTU,
  });
}

/** −ln(1 − share); Infinity once rounding has reached the limit. */
function straightenLimit(share: number): number {
  return -Math.log1p(-Math.min(1, share));
}
