import type { Arrangement, Side } from './exchanger';
import {
  coCurrentEffectiveness,
  counterCurrentEffectiveness,
  counterCurrentTransferUnits,
} from './pure-flow';

/** A one-pass stream against a stream of two or three passes; all that decides its formula. */
export type OnePassAgainst = {
  /** Passes of the other stream. */
  passes: 2 | 3;
  /** Whether the two end passes of a 3-1 unit run counter-current or co-current; without effect on 2-1. */
  flow: 'counter' | 'parallel';
  /** Whether the stream of smaller capacity rate is the one with a single pass. */
  smallerHasOnePass: boolean;
};

/**
 * The view of a plate arrangement as one pass against two or three.
 *
 * @param plate       a supported plate arrangement [-]
 * @param smallerSide stream of the smaller capacity rate [-]
 * @returns the view, or null for 1-1 and 2-2
 * @range supported arrangements
 * @source Kandlikar & Shah, J. Heat Transfer 111 (1989) 314-321: formulas are given from the one-pass stream's side
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function onePassAgainst(
  plate: Extract<Arrangement, { kind: 'plate' }>,
  smallerSide: Side,
): OnePassAgainst | null {
  if (plate.hotPasses === plate.coldPasses) return null;
  const passes = Math.max(plate.hotPasses, plate.coldPasses) === 2 ? 2 : 3;
  const smallerPasses = smallerSide === 'hot' ? plate.hotPasses : plate.coldPasses;
  return { passes, flow: plate.flow, smallerHasOnePass: smallerPasses === 1 };
}

/**
 * Effectiveness of a plate unit with one pass on one side and two or three on the other (many channels: no end effects).
 *
 * @param passes        passes of the other stream, their flow, and which side is the smaller
 * @param ntu           UA/Cmin [-], ≥ 0
 * @param capacityRatio Cmin/Cmax [-], 0 to 1
 * @returns effectiveness [-]
 * @range ntu 0 to Infinity
 * @source Kandlikar & Shah, Asymptotic effectiveness-NTU formulas for multipass plate heat exchangers,
 *   J. Heat Transfer 111 (1989) 314-321, doi:10.1115/1.3250679
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function onePassEffectiveness(passes: OnePassAgainst, ntu: number, capacityRatio: number): number {
  const blockNtu = passes.smallerHasOnePass ? ntu : ntu / passes.passes;
  const blockRatio = blockCapacityRatio(passes, capacityRatio);
  const parallel = coCurrentEffectiveness(blockNtu, blockRatio);
  const counter = counterCurrentEffectiveness(blockNtu, blockRatio);
  return combine(passes, blockRatio, { parallel, counter });
}

/**
 * Limit of `onePassEffectiveness` for infinite NTU.
 *
 * @param passes        passes of the other stream, their flow, and which side is the smaller
 * @param capacityRatio Cmin/Cmax [-], 0 to 1
 * @returns effectiveness [-]
 * @range any
 * @source limit of Kandlikar & Shah, J. Heat Transfer 111 (1989) 314-321
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function onePassMaximum(passes: OnePassAgainst, capacityRatio: number): number {
  const blockRatio = blockCapacityRatio(passes, capacityRatio);
  const limits = { parallel: 1 / (1 + blockRatio), counter: Math.min(1, 1 / blockRatio) };
  return combine(passes, blockRatio, limits);
}

/**
 * Effectiveness of a 2-2 plate unit, overall co-current with each pass counter-current. Not monotonic: it falls again beyond
 * `twoTwoParallelTransferUnits` of its maximum 1/(1 + Cr). (Overall counter-current, with counter-current passes, is pure counter-current.)
 *
 * @param ntu           UA/Cmin [-], ≥ 0
 * @param capacityRatio Cmin/Cmax [-], 0 to 1
 * @returns effectiveness [-]
 * @range ntu 0 to Infinity
 * @source Kandlikar & Shah, J. Heat Transfer 111 (1989) 314-321
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function twoTwoParallelEffectiveness(ntu: number, capacityRatio: number): number {
  const pass = counterCurrentEffectiveness(ntu / 2, capacityRatio);
  return pass * (2 - pass * (1 + capacityRatio));
}

/**
 * Smaller number of transfer units of a 2-2 plate unit, overall co-current with counter-current passes.
 *
 * @param effectiveness [-], 0 to 1/(1 + Cr)
 * @param capacityRatio Cmin/Cmax [-], 0 to 1
 * @returns NTU [-]; NaN above the limit
 * @range any
 * @source inverse of Kandlikar & Shah, J. Heat Transfer 111 (1989) 314-321 (quadratic in the effectiveness of one pass)
 * @check tests/core/exchange/transfer-units.test.ts
 */
export function twoTwoParallelTransferUnits(effectiveness: number, capacityRatio: number): number {
  const root = Math.sqrt(1 - effectiveness * (1 + capacityRatio));
  return 2 * counterCurrentTransferUnits(effectiveness / (1 + root), capacityRatio);
}

/** Each block holds one pass of the one stream and its share of the other: ratio from the smaller stream's view. */
function blockCapacityRatio({ passes, smallerHasOnePass }: OnePassAgainst, capacityRatio: number): number {
  return smallerHasOnePass ? capacityRatio / passes : capacityRatio * passes;
}

type Blocks = { parallel: number; counter: number };

/**
 * The stream of several passes goes through the blocks one after the other, the one-pass stream through all at once. `share` is what
 * the several-pass stream sees of a block's effectiveness.
 */
function combine(
  { passes, flow, smallerHasOnePass }: OnePassAgainst,
  blockRatio: number,
  blocks: Blocks,
): number {
  const share = smallerHasOnePass ? blockRatio : 1;
  const isEndCounter = passes === 2 || flow === 'counter';
  const single = isEndCounter ? blocks.parallel : blocks.counter;
  const repeated = isEndCounter ? blocks.counter : blocks.parallel;
  const twice = passes === 2 ? 1 : 2 - share * repeated;
  const sum = single + repeated * (1 - share * single) * twice;
  return smallerHasOnePass ? sum / passes : sum;
}
