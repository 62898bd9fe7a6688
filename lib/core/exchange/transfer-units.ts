import {
  bothMixedTransferUnits,
  onePassTransferUnits,
  unmixedTransferUnits,
} from './bracketed-transfer-units';
import { largerMixedTransferUnits, smallerMixedTransferUnits } from './crossflow-mixed';
import { NEGLIGIBLE_RATIO } from './effectiveness';
import type { Arrangement, Side } from './exchanger';
import { onePassAgainst, twoTwoParallelTransferUnits } from './plate-passes';
import { coCurrentTransferUnits, counterCurrentTransferUnits } from './pure-flow';
import { shellPassesOf, shellTransferUnits } from './shell-and-tube';
import { assertSupportedArrangement } from './supported-arrangement';

/**
 * Number of transfer units that give an effectiveness: the inverse of `effectiveness` in NTU. Where two NTU give the
 * same effectiveness (cross-flow both mixed, four or more tube passes in a shell, plate 2-2 overall parallel) the smaller one.
 *
 * Closed form, except cross-flow with neither or both fluids mixed, four or more tube passes in a shell and plate 2-1 and 3-1,
 * which are solved in a bracket.
 *
 * @param arrangement   how the streams pass each other; RangeError if it is not supported [-]
 * @param effectiveness [-], 0 to below `maximumEffectiveness`
 * @param capacityRatio Cr = Cmin/Cmax [-], 0 to 1
 * @param smallerSide   stream of the smaller capacity rate [-]
 * @returns NTU [-], never Infinity; 0 for 0; NaN below 0, above the limit, within a rounding of a limit that only an infinite
 *   NTU reaches, and for a bracketed arrangement beyond NTU 1000
 * @range effectiveness 0 to `maximumEffectiveness`, capacityRatio 0 to 1
 * @source inverses of the formulas named in `effectiveness`; Incropera et al., 6th ed. 2007, Table 11.4
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function numberOfTransferUnits(
  arrangement: Arrangement,
  effectiveness: number,
  capacityRatio: number,
  smallerSide: Side,
): number {
  assertSupportedArrangement(arrangement);
  const isUsable = effectiveness >= 0 && effectiveness < 1 && capacityRatio >= 0 && capacityRatio <= 1;
  if (!isUsable) return Number.NaN;
  // So small an effectiveness is its NTU to the last digit.
  if (effectiveness < NEGLIGIBLE_RATIO) return effectiveness;
  if (capacityRatio < NEGLIGIBLE_RATIO) return -Math.log1p(-effectiveness);
  const ntu = inverse(arrangement, effectiveness, capacityRatio, smallerSide);
  return Number.isFinite(ntu) ? ntu : Number.NaN;
}

function inverse(
  arrangement: Arrangement,
  effectiveness: number,
  capacityRatio: number,
  smallerSide: Side,
): number {
  switch (arrangement.kind) {
    case 'counter-current':
      return counterCurrentTransferUnits(effectiveness, capacityRatio);
    case 'co-current':
      return coCurrentTransferUnits(effectiveness, capacityRatio);
    case 'shell-and-tube': {
      const shells = shellPassesOf(arrangement, smallerSide);
      if (shells === null) return counterCurrentTransferUnits(effectiveness, capacityRatio);
      return shellTransferUnits(shells, effectiveness, capacityRatio);
    }
    case 'crossflow':
      return crossflowInverse(arrangement.mixed, effectiveness, capacityRatio, smallerSide);
    case 'plate':
      return plateInverse(arrangement, effectiveness, capacityRatio, smallerSide);
  }
}

function crossflowInverse(
  mixed: 'none' | Side | 'both',
  effectiveness: number,
  capacityRatio: number,
  smallerSide: Side,
): number {
  if (mixed === 'none') return unmixedTransferUnits(effectiveness, capacityRatio);
  if (mixed === 'both') return bothMixedTransferUnits(effectiveness, capacityRatio);
  if (mixed === smallerSide) return smallerMixedTransferUnits(effectiveness, capacityRatio);
  return largerMixedTransferUnits(effectiveness, capacityRatio);
}

function plateInverse(
  arrangement: Extract<Arrangement, { kind: 'plate' }>,
  effectiveness: number,
  capacityRatio: number,
  smallerSide: Side,
): number {
  const passes = onePassAgainst(arrangement, smallerSide);
  if (passes !== null) return onePassTransferUnits(passes, effectiveness, capacityRatio);
  if (arrangement.flow === 'counter') return counterCurrentTransferUnits(effectiveness, capacityRatio);
  if (arrangement.hotPasses === 2) return twoTwoParallelTransferUnits(effectiveness, capacityRatio);
  return coCurrentTransferUnits(effectiveness, capacityRatio);
}
