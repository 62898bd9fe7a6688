import {
  bothMixedEffectiveness,
  largerMixedEffectiveness,
  smallerMixedEffectiveness,
} from './crossflow-mixed';
import { crossflowUnmixedEffectiveness } from './crossflow-unmixed';
import type { Arrangement, Side } from './exchanger';
import { onePassAgainst, onePassEffectiveness, twoTwoParallelEffectiveness } from './plate-passes';
import { coCurrentEffectiveness, counterCurrentEffectiveness } from './pure-flow';
import { shellEffectiveness, shellPassesOf } from './shell-and-tube';
import { assertSupportedArrangement } from './supported-arrangement';

/** Below this capacity rate ratio [-] a double cannot tell the effectiveness from that of Cr = 0, nor a so small one from its NTU. */
export const NEGLIGIBLE_RATIO = 2 ** -57;

/**
 * Effectiveness of an arrangement: duty over the greatest duty the two inlets allow, ε(NTU, Cr).
 *
 * Plate 2-2 is taken with counter-current passes, overall counter-current or parallel as `flow` says. Plate 3-1 `flow` is
 * that of the two end passes. Shells are exact for every even number of tube passes (see `manyPassEffectiveness`).
 *
 * @param arrangement   how the streams pass each other; RangeError if `isSupportedArrangement` gives a reason [-]
 * @param ntu           UA/Cmin [-], ≥ 0
 * @param capacityRatio Cr = Cmin/Cmax [-], 0 (one side condenses) to 1
 * @param smallerSide   stream of the smaller capacity rate; without effect at Cr = 1 and in symmetric arrangements [-]
 * @returns effectiveness [-], 0 to 1; NaN for an NTU or Cr outside their range
 * @range ntu 0 to 1000, capacityRatio 0 to 1
 * @source Incropera et al., 6th ed. 2007, Table 11.3; Shah & Sekulić 2003, Table 3.4; Kandlikar & Shah 1989: see each family
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function effectiveness(
  arrangement: Arrangement,
  ntu: number,
  capacityRatio: number,
  smallerSide: Side,
): number {
  assertSupportedArrangement(arrangement);
  if (!(ntu >= 0 && capacityRatio >= 0 && capacityRatio <= 1)) return Number.NaN;
  if (capacityRatio < NEGLIGIBLE_RATIO || ntu < NEGLIGIBLE_RATIO) return -Math.expm1(-ntu);
  switch (arrangement.kind) {
    case 'counter-current':
      return counterCurrentEffectiveness(ntu, capacityRatio);
    case 'co-current':
      return coCurrentEffectiveness(ntu, capacityRatio);
    case 'shell-and-tube': {
      const shells = shellPassesOf(arrangement, smallerSide);
      if (shells === null) return counterCurrentEffectiveness(ntu, capacityRatio);
      return shellEffectiveness(shells, ntu, capacityRatio);
    }
    case 'crossflow':
      return crossflow(arrangement.mixed, ntu, capacityRatio, smallerSide);
    case 'plate':
      return plate(arrangement, ntu, capacityRatio, smallerSide);
  }
}

function crossflow(
  mixed: 'none' | Side | 'both',
  ntu: number,
  capacityRatio: number,
  smallerSide: Side,
): number {
  if (mixed === 'none') return crossflowUnmixedEffectiveness(ntu, capacityRatio);
  if (mixed === 'both') return bothMixedEffectiveness(ntu, capacityRatio);
  if (mixed === smallerSide) return smallerMixedEffectiveness(ntu, capacityRatio);
  return largerMixedEffectiveness(ntu, capacityRatio);
}

function plate(
  arrangement: Extract<Arrangement, { kind: 'plate' }>,
  ntu: number,
  capacityRatio: number,
  smallerSide: Side,
): number {
  const passes = onePassAgainst(arrangement, smallerSide);
  if (passes !== null) return onePassEffectiveness(passes, ntu, capacityRatio);
  if (arrangement.flow === 'counter') return counterCurrentEffectiveness(ntu, capacityRatio);
  if (arrangement.hotPasses === 2) return twoTwoParallelEffectiveness(ntu, capacityRatio);
  return coCurrentEffectiveness(ntu, capacityRatio);
}
