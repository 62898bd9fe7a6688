import type { Exchanger } from '../exchange/exchanger';

/**
 * The same errors weigh more on the clean unit, whose temperature differences are smaller, so that more than the common part
 * is left [-]; set on simulated sensors (tests/core/fouling/systematic-left.test.ts).
 */
const BEYOND_COMMON = 1.4;

/**
 * Share of the systematic error of Rf that is left when its clean reference was learned with the same sensors: those errors
 * scale U and the learned reference alike, U·(1 + δ), so that Rf = 1/U − 1/Uc keeps only δ·Rf of the δ/U it would have, the
 * share 1 − U/Uc, and some more because the clean unit ran at other temperatures than the fouled one. It cancels only for what
 * is common: the same sensors, not replaced nor adjusted since, at the flows they learned at.
 * A datasheet, or a clean test that may have had other instruments, cancels nothing.
 *
 * @param clean       where the clean reference comes from
 * @param cleanliness U/Uc [-]
 * @returns factor on the systematic standard uncertainty [-], 0 to 1
 * @range  any; a unit cleaner than its reference counts as clean
 * @source JCGM 100:2008 (GUM) 5.2 (correlated inputs), for one common relative error of U
 * @check  tests/core/fouling/systematic-left.test.ts (Monte Carlo)
 */
export function systematicLeft(clean: Exchanger['clean'], cleanliness: number): number {
  return clean === 'learned' ? Math.min(1, Math.max(0, BEYOND_COMMON * (1 - cleanliness))) : 1;
}
