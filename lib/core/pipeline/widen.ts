import type { Widening } from './unit-trend';

/** P10 to P90 are to hold this share of the truths [-]. */
const AIM = 0.8;
/** Fewest past projections that say anything of a fleet, and of one unit [-] (own choice). */
const FEWEST_OF_FLEET = 20;
const FEWEST_OF_UNIT = 9;
/** A unit's own record counts instead of the fleet's where chance would hold so few of its truths this rarely [-]. */
const RARE = 0.05;

/** Scores of past projections: how far off they were, in half-widths of their bands [-]. */
export type FleetRecord = {
  /** Those of every unit that is heard, ascending. */
  scores: Float64Array;
  /** Those among them that are of the very unit they are told to: what it knows itself counts in their place. */
  own: readonly number[];
};

/** What a fleet says of which nothing is known. */
export const NO_RECORD: FleetRecord = { scores: new Float64Array(), own: [] };

/**
 * The past projections of a fleet, put in order once for all its units.
 *
 * @param records scores of each unit [-], in any order
 * @returns all of them, ascending [-]
 * @range  any
 * @source none: sorting only
 * @check  tests/core/pipeline/widen.test.ts
 */
export function sortedScores(records: Iterable<readonly number[]>): Float64Array {
  return Float64Array.from([...records].flat()).sort();
}

/**
 * How much wider a projection must be for P10 to P90 to hold the truth four times in five, by past ones: the conformal
 * quantile of their scores, and never below 1. The fleet's record counts, for it is the longer; the unit's own where its
 * projections held the truth rarely beyond chance.
 *
 * @param own   scores of the unit's past projections [-]
 * @param fleet those of every unit that is heard, and which of them were this one's
 * @returns factor ≥ 1 on the distance of P10 and P90 from the median [-]
 * @range  factor 1 below 20 past projections of the fleet, and 9 of the unit
 * @source Lei et al., Distribution-free predictive inference for regression, J. Am. Stat. Assoc. 113 (2018) 1094-1111, sect.
 *   2.2: the ⌈(n + 1)·0.8⌉-th smallest score; projections of one cycle count as if they were independent
 * @check  tests/core/pipeline/widen.test.ts
 */
export function widen(own: readonly number[], fleet: FleetRecord): Widening {
  if (own.length >= FEWEST_OF_UNIT && isRarelyHeld(own))
    return { factor: factorOf(Float64Array.from(own).sort()), from: 'unit', count: own.length };
  const count = fleet.scores.length - fleet.own.length + own.length;
  if (count < FEWEST_OF_FLEET) return { factor: 1, from: 'none', count };
  return { factor: factorOf(withOwn(fleet, own)), from: 'fleet', count };
}

/** The fleet's scores with the unit's own as they are now; mostly they are what the fleet has heard already. */
function withOwn({ scores, own: heard }: FleetRecord, own: readonly number[]): Float64Array {
  const isHeard = heard.length === own.length && heard.every((score, i) => score === own[i]);
  if (isHeard) return scores;
  const others = Array.from(scores);
  for (const score of heard) others.splice(others.indexOf(score), 1);
  return sortedScores([others, own]);
}

function factorOf(sorted: Float64Array): number {
  const rank = Math.min(sorted.length, Math.ceil((sorted.length + 1) * AIM));
  return Math.max(1, sorted[rank - 1]!);
}

/** Whether so few or fewer would be held by chance less often than RARE (binomial). */
function isRarelyHeld(scores: readonly number[]): boolean {
  const count = scores.length;
  const held = scores.filter((score) => score <= 1).length;
  let probability = (1 - AIM) ** count;
  let sum = probability;
  for (let k = 1; k <= held; k++) {
    probability *= ((count - k + 1) / k) * (AIM / (1 - AIM));
    sum += probability;
  }
  return sum < RARE;
}
