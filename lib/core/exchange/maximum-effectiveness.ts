import { bothMixedEffectiveness, bothMixedPeak } from './crossflow-mixed';
import { NEGLIGIBLE_RATIO } from './effectiveness';
import type { Arrangement, Side } from './exchanger';
import { onePassAgainst, onePassMaximum } from './plate-passes';
import { shellMaximum, shellPassesOf } from './shell-and-tube';
import { assertSupportedArrangement } from './supported-arrangement';

/**
 * Greatest effectiveness an arrangement can reach with any NTU: its limit for infinite NTU, or the maximum where the
 * effectiveness falls again (cross-flow with both fluids mixed; four or more tube passes in a shell; plate 2-2 overall parallel).
 *
 * @param arrangement   how the streams pass each other; RangeError if it is not supported [-]
 * @param capacityRatio Cr = Cmin/Cmax [-], 0 to 1
 * @param smallerSide   stream of the smaller capacity rate [-]
 * @returns effectiveness [-], 0.5 to 1; NaN for a Cr outside its range
 * @range capacityRatio 0 to 1
 * @source limits of the formulas named in `effectiveness`
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function maximumEffectiveness(
  arrangement: Arrangement,
  capacityRatio: number,
  smallerSide: Side,
): number {
  assertSupportedArrangement(arrangement);
  if (!(capacityRatio >= 0 && capacityRatio <= 1)) return Number.NaN;
  if (capacityRatio < NEGLIGIBLE_RATIO) return 1;
  switch (arrangement.kind) {
    case 'counter-current':
      return 1;
    case 'co-current':
      return 1 / (1 + capacityRatio);
    case 'shell-and-tube': {
      const shells = shellPassesOf(arrangement, smallerSide);
      return shells === null ? 1 : shellMaximum(shells, capacityRatio);
    }
    case 'crossflow':
      return crossflowMaximum(arrangement.mixed, capacityRatio, smallerSide);
    case 'plate': {
      const passes = onePassAgainst(arrangement, smallerSide);
      if (passes !== null) return onePassMaximum(passes, capacityRatio);
      return arrangement.flow === 'counter' ? 1 : 1 / (1 + capacityRatio);
    }
  }
}

function crossflowMaximum(mixed: 'none' | Side | 'both', capacityRatio: number, smallerSide: Side): number {
  if (mixed === 'none') return 1;
  if (mixed === 'both') return bothMixedEffectiveness(bothMixedPeak(capacityRatio), capacityRatio);
  if (mixed === smallerSide) return -Math.expm1(-1 / capacityRatio);
  return -Math.expm1(-capacityRatio) / capacityRatio;
}
