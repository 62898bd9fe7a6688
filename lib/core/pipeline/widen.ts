import type { Hindcast, Widening } from './unit-trend';

/** P10 to P90 are to hold this share of the truths [-]. */
const AIM = 0.8;
/** Fewest past projections that say anything of a fleet, and of one unit [-] (own choice). */
const FEWEST_OF_FLEET = 20;
const FEWEST_OF_UNIT = 9;
/** A unit's own record counts instead of the fleet's where chance would hold so few of its truths this rarely [-]. */
const RARE = 0.05;

/** How far off past projections were, in half-widths of their bands. */
export type Score = Pick<Hindcast, 'score'>;

/**
 * How much wider a projection must be for P10 to P90 to hold the truth four times in five, by past ones: the conformal
 * quantile of their scores, and never below 1. The fleet's record counts, for it is the longer; the unit's own where its
 * projections held the truth rarely beyond chance.
 *
 * @param own   the unit's past projections
 * @param fleet those of every unit, this one's among them
 * @returns factor ≥ 1 on the distance of P10 and P90 from the median [-]
 * @range  factor 1 below 20 past projections of the fleet, and 9 of the unit
 * @source Lei et al., Distribution-free predictive inference for regression, J. Am. Stat. Assoc. 113 (2018) 1094-1111, sect.
 *   2.2: the ⌈(n + 1)·0.8⌉-th smallest score; projections of one cycle count as if they were independent
 * @check  tests/core/pipeline/widen.test.ts
 */
export function widen(own: readonly Score[], fleet: readonly Score[]): Widening {
  if (own.length >= FEWEST_OF_UNIT && isRarelyHeld(own))
    return { factor: factorOf(own), from: 'unit', count: own.length };
  if (fleet.length < FEWEST_OF_FLEET) return { factor: 1, from: 'none', count: fleet.length };
  return { factor: factorOf(fleet), from: 'fleet', count: fleet.length };
}

function factorOf(scores: readonly Score[]): number {
  const sorted = scores.map(({ score }) => score).sort((a, b) => a - b);
  const rank = Math.min(sorted.length, Math.ceil((sorted.length + 1) * AIM));
  return Math.max(1, sorted[rank - 1]!);
}

/** Whether so few or fewer would be held by chance less often than RARE (binomial). */
function isRarelyHeld(scores: readonly Score[]): boolean {
  const count = scores.length;
  const held = scores.filter(({ score }) => score <= 1).length;
  let probability = (1 - AIM) ** count;
  let sum = probability;
  for (let k = 1; k <= held; k++) {
    probability *= ((count - k + 1) / k) * (AIM / (1 - AIM));
    sum += probability;
  }
  return sum < RARE;
}
