import { findRoot } from '../fit/brent';
import { LARGEST_NTU } from './crossflow-unmixed';
import { counterCurrentTransferUnits } from './pure-flow';
import { solveTransferUnits } from './solve-transfer-units';
import { straightenPeak } from './straighten-peak';

/** One shell with an even number of tube passes; all that decides its formula. */
export type TubePasses = {
  /** Pairs of tube passes: 1 for two passes, 2 for four. */
  pairs: number;
  /** Whether the stream of smaller capacity rate is the one in the tubes; without effect on two passes. */
  isSmallerInTubes: boolean;
};

/** Beyond this NTU no more rise shows in a double [-]: exp(−60) is 1e-26. */
const FLAT_NTU = 60;
/** Slope taken as none [-]: relative to ε it adds less than 1e-16 up to any NTU. */
const NO_SLOPE = 1e-15;
/** Absolute tolerance of the NTU of a peak [-]; the effectiveness there is flat, so its maximum is good to twice the digits. */
const PEAK_TOLERANCE = 1e-8;

/**
 * Effectiveness of one shell with any even number of tube passes, exact: shell fluid mixed across each section, passes of equal area.
 *
 * With k pairs of passes, s and t the share of Cmin in the capacity rates of shell and tubes (one of them is 1, the other Cr) and
 * g = √(s² + t²/k²):  2/ε = s + t + g·coth(g·NTU/2) + t·(coth(t·NTU/2) − coth(t·NTU/(2k))/k).
 *
 * Derivation: with a the NTU of one pass, the sum of the temperatures of a pair obeys σ″ = a²(σ − 2T), T the shell's. The mean of
 * all pairs and T are a linear system of their own, with the roots (−b ± √(b² + 4a²))/2, b the NTU of the shell: that is the term in g.
 * A pair's departure w from the mean obeys w″ = a²w with w′ = 0 at the far end; that each pair returns into the next makes
 * the departures a geometric series of ratio exp(−2a), and that they add to nothing fixes it: those are the last two terms.
 * For k = 1 it is the formula of two passes; for k = 2 that of the source; as k grows it tends to cross-flow with both fluids mixed.
 *
 * @param passes        pairs of tube passes, and which stream is in the tubes
 * @param ntu           UA/Cmin of the shell [-], > 0
 * @param capacityRatio Cmin/Cmax [-], above 0 to 1
 * @returns effectiveness [-]; not monotonic for four passes and more, see `manyPassPeak`
 * @range ntu above 0 to Infinity, relative error below 1e-15
 * @source two and four passes: Shah & Sekulić, Fundamentals of Heat Exchanger Design, 2003, Table 3.6; any even number: derived above
 * @check tests/core/exchange/tube-passes.test.ts, tests/published/exchanger-arrangements.test.ts
 */
export function manyPassEffectiveness(passes: TubePasses, ntu: number, capacityRatio: number): number {
  const { pairs, isSmallerInTubes } = passes;
  const tubes = isSmallerInTubes ? 1 : capacityRatio;
  const root = meanRoot(passes, capacityRatio);
  const half = ntu / 2;
  const returns = coth(tubes * half) - coth((tubes * half) / pairs) / pairs;
  return 2 / (1 + capacityRatio + root * coth(root * half) + tubes * returns);
}

/**
 * NTU at which one shell with four or more tube passes is most effective; beyond, the last passes heat what the first have cooled.
 * Root of ψ(g·NTU) + ψ(t·NTU) = ψ(t·NTU/k) with ψ(x) = (x/2 / sinh(x/2))², which is dε/dNTU = 0.
 *
 * @param passes        pairs of tube passes, ≥ 2, and which stream is in the tubes
 * @param capacityRatio Cmin/Cmax [-], above 0 to 1
 * @returns NTU [-], from 2.98 at Cr = 1 upwards; at a very small Cr the NTU, near 42, from which no more rise shows in a double
 * @range any
 * @source derivative of `manyPassEffectiveness`
 * @check tests/core/exchange/tube-passes.test.ts, tests/published/exchanger-arrangements.test.ts
 */
export function manyPassPeak(passes: TubePasses, capacityRatio: number): number {
  const tubes = passes.isSmallerInTubes ? 1 : capacityRatio;
  const root = meanRoot(passes, capacityRatio);
  const fall = (ntu: number) =>
    bell((tubes * ntu) / passes.pairs) - bell(tubes * ntu) - bell(root * ntu) + NO_SLOPE;
  return findRoot(fall, 2, FLAT_NTU, { tolerance: PEAK_TOLERANCE });
}

/**
 * Smaller number of transfer units of one shell with four or more tube passes. Solved on the NTU that two passes would need, which is
 * nearly proportional; between the limit for infinite NTU and the maximum, on 1 − √(1 − ε/maximum).
 *
 * @param passes        pairs of tube passes, ≥ 2, and which stream is in the tubes
 * @param effectiveness [-], above 0 to the maximum
 * @param capacityRatio Cmin/Cmax [-], above 0 to 1
 * @returns NTU of the shell [-], at most `manyPassPeak`; NaN above the maximum
 * @range any
 * @source inverse of `manyPassEffectiveness`
 * @check tests/core/exchange/transfer-units.test.ts
 */
export function manyPassTransferUnits(
  passes: TubePasses,
  effectiveness: number,
  capacityRatio: number,
): number {
  const low = twoPassTransferUnits(effectiveness, capacityRatio);
  // Only the rising branch lies below the limit of the falling one: no peak is needed there.
  const isBelowLimit = effectiveness < manyPassEffectiveness(passes, Number.POSITIVE_INFINITY, capacityRatio);
  if (!(isBelowLimit && low < LARGEST_NTU)) return unitsNearPeak(passes, effectiveness, capacityRatio);
  const straightened = (ntu: number) =>
    twoPassTransferUnits(manyPassEffectiveness(passes, ntu, capacityRatio), capacityRatio);
  return solveTransferUnits(straightened, low, { low, largest: LARGEST_NTU });
}

/**
 * Number of transfer units of one shell with two tube passes.
 *
 * @param effectiveness [-], 0 to below 2/(1 + Cr + √(1 + Cr²))
 * @param capacityRatio Cmin/Cmax [-], 0 to 1
 * @returns NTU of the shell [-]; Infinity or NaN from the limit on
 * @range any
 * @source Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed. 2007, Table 11.4, eqs. 11.30b, c
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function twoPassTransferUnits(effectiveness: number, capacityRatio: number): number {
  const root = Math.sqrt(1 + capacityRatio * capacityRatio);
  return Math.log1p((2 * root * effectiveness) / (2 - effectiveness * (1 + capacityRatio + root))) / root;
}

function unitsNearPeak(passes: TubePasses, effectiveness: number, capacityRatio: number): number {
  const peak = manyPassPeak(passes, capacityRatio);
  const maximum = manyPassEffectiveness(passes, peak, capacityRatio);
  if (effectiveness >= maximum) return effectiveness === maximum ? peak : Number.NaN;
  const low = counterCurrentTransferUnits(effectiveness, capacityRatio);
  const straightened = (ntu: number) =>
    straightenPeak(manyPassEffectiveness(passes, ntu, capacityRatio) / maximum);
  return solveTransferUnits(straightened, straightenPeak(effectiveness / maximum), { low, largest: peak });
}

/** g of `manyPassEffectiveness`. */
function meanRoot({ pairs, isSmallerInTubes }: TubePasses, capacityRatio: number): number {
  const tubes = (isSmallerInTubes ? 1 : capacityRatio) / pairs;
  const shell = isSmallerInTubes ? capacityRatio : 1;
  return Math.sqrt(shell * shell + tubes * tubes);
}

function coth(x: number): number {
  return 1 / Math.tanh(x);
}

/** ψ(x) = (x/2 / sinh(x/2))². */
function bell(x: number): number {
  const half = x / 2 / Math.sinh(x / 2);
  return half * half;
}
