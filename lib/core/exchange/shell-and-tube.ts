import type { Arrangement, Side } from './exchanger';
import { counterCurrentEffectiveness, counterCurrentTransferUnits } from './pure-flow';
import {
  manyPassEffectiveness,
  manyPassPeak,
  manyPassTransferUnits,
  type TubePasses,
  twoPassTransferUnits,
} from './tube-passes';

/** Equal shells in series (overall counter-current) and what is in each. */
type ShellPasses = TubePasses & { shells: number };

/**
 * The view of a shell-and-tube arrangement as equal shells with pairs of tube passes.
 *
 * @param arrangement a supported shell-and-tube arrangement [-]
 * @param smallerSide stream of the smaller capacity rate [-]
 * @returns the view, or null for one tube pass in each shell, which is counter-current flow
 * @range supported arrangements
 * @source Shah & Sekulić, Fundamentals of Heat Exchanger Design, 2003, sec. 3.4 (formulas are given for one shell)
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function shellPassesOf(
  arrangement: Extract<Arrangement, { kind: 'shell-and-tube' }>,
  smallerSide: Side,
): ShellPasses | null {
  const { shellPasses, tubePasses, tubeSide } = arrangement;
  if (tubePasses === shellPasses) return null;
  return {
    shells: shellPasses,
    pairs: tubePasses / shellPasses / 2,
    isSmallerInTubes: tubeSide === smallerSide,
  };
}

/**
 * Effectiveness of n shells in series (overall counter-current), each with an even number of tube passes; exact.
 *
 * @param passes        shells, pairs of tube passes in each, and which stream is in the tubes
 * @param ntu           UA/Cmin of all shells together [-], > 0
 * @param capacityRatio Cmin/Cmax [-], above 0 to 1
 * @returns effectiveness [-]
 * @range ntu above 0 to Infinity
 * @source Incropera et al., 6th ed. 2007, Table 11.3, eqs. 11.30a and 11.31a; Bowman, Mueller & Nagle, Trans. ASME 62 (1940) 283;
 *   four and more tube passes: `manyPassEffectiveness`
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function shellEffectiveness(passes: ShellPasses, ntu: number, capacityRatio: number): number {
  const each = ntu / passes.shells;
  const one =
    passes.pairs === 1
      ? twoPassEffectiveness(each, capacityRatio)
      : manyPassEffectiveness(passes, each, capacityRatio);
  return inSeries(one, capacityRatio, passes.shells);
}

/**
 * Greatest value of `shellEffectiveness`: its limit for infinite NTU with two tube passes in a shell, its peak with more.
 *
 * @param passes        shells, pairs of tube passes in each, and which stream is in the tubes
 * @param capacityRatio Cmin/Cmax [-], above 0 to 1
 * @returns effectiveness [-]
 * @range any
 * @source limit of Incropera et al., 6th ed. 2007, Table 11.3, eqs. 11.30a and 11.31a; `manyPassPeak`
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function shellMaximum(passes: ShellPasses, capacityRatio: number): number {
  const peak = passes.pairs === 1 ? Number.POSITIVE_INFINITY : manyPassPeak(passes, capacityRatio);
  return shellEffectiveness(passes, passes.shells * peak, capacityRatio);
}

/**
 * Number of transfer units of n shells in series: the inverse of `shellEffectiveness`, the smaller NTU where there are two.
 *
 * @param passes        shells, pairs of tube passes in each, and which stream is in the tubes
 * @param effectiveness [-], above 0 to `shellMaximum`
 * @param capacityRatio Cmin/Cmax [-], above 0 to 1
 * @returns NTU of all shells together [-]; NaN above the maximum, Infinity or NaN at a limit that only an infinite NTU reaches
 * @range any
 * @source Incropera et al., 6th ed. 2007, Table 11.4, eqs. 11.30b, c and 11.31b, c, d; `manyPassTransferUnits`
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function shellTransferUnits(
  passes: ShellPasses,
  effectiveness: number,
  capacityRatio: number,
): number {
  const one = eachOf(effectiveness, capacityRatio, passes.shells);
  if (passes.pairs === 1) return passes.shells * twoPassTransferUnits(one, capacityRatio);
  const each = manyPassTransferUnits(passes, one, capacityRatio);
  // Taking the series apart may round what is at most the maximum of all shells to a hair above that of one.
  const isPeak = Number.isNaN(each) && effectiveness <= shellMaximum(passes, capacityRatio);
  return passes.shells * (isPeak ? manyPassPeak(passes, capacityRatio) : each);
}

function twoPassEffectiveness(ntu: number, capacityRatio: number): number {
  const root = Math.sqrt(1 + capacityRatio * capacityRatio);
  // coth(x/2) = (2 − E)/E with E = 1 − exp(−x): finite at 0 and exact for large x.
  const decay = -Math.expm1(-ntu * root);
  return (2 * decay) / ((1 + capacityRatio) * decay + root * (2 - decay));
}

/**
 * Equal units in series, overall counter-current, act as one counter-current unit with the sum of their counter-current NTU:
 * the same as ((1−ε₁Cr)/(1−ε₁))ⁿ of eq. 11.31a, but exact at and near Cr = 1.
 */
function inSeries(one: number, capacityRatio: number, shells: number): number {
  if (shells === 1) return one;
  return counterCurrentEffectiveness(shells * counterCurrentTransferUnits(one, capacityRatio), capacityRatio);
}

/** Effectiveness of each of n equal shells that together reach `effectiveness`: the inverse of `inSeries`. */
function eachOf(effectiveness: number, capacityRatio: number, shells: number): number {
  if (shells === 1) return effectiveness;
  return counterCurrentEffectiveness(
    counterCurrentTransferUnits(effectiveness, capacityRatio) / shells,
    capacityRatio,
  );
}
