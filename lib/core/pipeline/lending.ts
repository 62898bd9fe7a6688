import { cycleEvidence, type GrowthInput } from '../growth/fit-growth';
import type { Growth } from '../growth/growth';
import {
  expectedForms,
  expectedFromLike,
  type FormEvidence,
  type FormPrior,
  typicalForms,
} from '../growth/pool-forms';
import { smoothFouling } from '../growth/smooth-fouling';
import { median } from '../stats/quantile';
import type { Expected } from './cycle-growth';
import type { Borrowed } from './unit-trend';

/** A cycle tells others how the unit fouls once it has this many figures over this many days (own choice). */
export const FEWEST_LENDING_FIGURES = 14;
export const SHORTEST_LENDING_DAYS = 21;
/**
 * Relative spread of the rate from cycle to cycle, and between like units, before any is seen [-], and as how many
 * cycles that guess counts (own choice).
 */
const USUAL_SPREAD = 0.25;
const USUAL_SPREAD_OF_LIKE = 0.6;
const GUESS_COUNTS = 2;
/** However alike they were, no rate is known better than this beforehand [-] (own choice). */
const LEAST_SPREAD = 0.1;

/** An ended cycle that others can learn from. */
export type EndedCycle = { growth: Growth; evidence: FormEvidence };

/** What a unit's ended cycles say of a cycle of it, or of a unit of like service; plain numbers, so that it can be kept. */
export type Lending = {
  cycles: number;
  /** Mean rate over the first `overDays` of each of them, the median of the cycles [m²·K/W per day, days]. */
  ratePerDay: number;
  overDays: number;
  /** Scatter of that rate between the cycles, as squares of relative departures from the median, summed [-]. */
  departure: number;
  /** Probability of each of GROWTH_FORMS being typical of the unit [-]. */
  typical: number[];
};

/**
 * A cycle that has ended, with what its figures say of the form of growth.
 *
 * @param figures its figures, as for `fitGrowth`
 * @param growth  its growth
 * @returns null where it is too short to tell
 * @range  from 14 figures over 21 days
 * @source own choice
 * @check  tests/core/pipeline/lending.test.ts
 */
export function endedCycle(figures: GrowthInput, growth: Growth): EndedCycle | null {
  if (growth.count < FEWEST_LENDING_FIGURES || growth.spanDays < SHORTEST_LENDING_DAYS) return null;
  return { growth, evidence: cycleEvidence(figures) };
}

/**
 * What the ended cycles of a unit have to say.
 *
 * @param cycles those that can tell, any order
 * @returns null where there is none, or none grew
 * @range  any
 * @source METHODS §9
 * @check  tests/core/pipeline/lending.test.ts
 */
export function lendingOf(cycles: readonly EndedCycle[]): Lending | null {
  if (cycles.length === 0) return null;
  const overDays = Math.min(...cycles.map(({ growth }) => growth.lastAgeDays));
  const rates = cycles.map(
    ({ growth }) => (smoothFouling(growth, overDays) - smoothFouling(growth, 0)) / overDays,
  );
  const ratePerDay = median(rates);
  if (!(ratePerDay > 0)) return null;
  return {
    cycles: cycles.length,
    ratePerDay,
    overDays,
    departure: rates.reduce((sum, rate) => sum + (rate / ratePerDay - 1) ** 2, 0),
    typical: [...typicalForms(cycles.map(({ evidence }) => evidence))],
  };
}

/** What is expected of a cycle, and where that comes from. */
export type Expectation = { expected: Expected; borrowed: Borrowed };

const NOTHING: Expectation = { expected: {}, borrowed: { from: 'none', cycles: 0, units: 0 } };

/**
 * What to expect of a cycle: by the unit's own ended cycles where they can tell, else by units of like service.
 *
 * @param own  what the unit's ended cycles say, or null
 * @param like what units of like service say
 * @returns prior rate and form for `fitGrowth`, and in words where they come from
 * @range  any
 * @source spread of a new draw s·√(1 + 1/n), s² with the usual spread counted as two cycles: Gelman et al., Bayesian Data
 *   Analysis, 3rd ed. 2013, sect. 2.6 (scaled inverse χ²)
 * @check  tests/core/pipeline/lending.test.ts
 */
export function expectation(own: Lending | null, like: readonly Lending[]): Expectation {
  if (own !== null) {
    return {
      expected: expectedOf([own], {
        usual: USUAL_SPREAD,
        forms: expectedForms(Float64Array.from(own.typical)),
      }),
      borrowed: { from: 'own-cycles', cycles: own.cycles, units: 0 },
    };
  }
  if (like.length === 0) return NOTHING;
  const forms = expectedFromLike(like.map(({ typical }) => Float64Array.from(typical)));
  const cycles = like.reduce((sum, lending) => sum + lending.cycles, 0);
  return {
    expected: expectedOf(like, { usual: USUAL_SPREAD_OF_LIKE, forms }),
    borrowed: { from: 'like-units', cycles, units: like.length },
  };
}

function expectedOf(lenders: readonly Lending[], known: { usual: number; forms: FormPrior }): Expected {
  const ratePerDay = median(lenders.map((lender) => lender.ratePerDay));
  const isOne = lenders.length === 1;
  const count = isOne ? lenders[0]!.cycles : lenders.length;
  const departure = isOne
    ? lenders[0]!.departure
    : lenders.reduce((sum, lender) => sum + (lender.ratePerDay / ratePerDay - 1) ** 2, 0);
  const variance = (GUESS_COUNTS * known.usual ** 2 + departure) / (GUESS_COUNTS + count - 1);
  const spread = Math.max(LEAST_SPREAD, Math.sqrt(variance * (1 + 1 / count)));
  return {
    prior: {
      ratePerDay,
      ratePerDayUncertainty: spread * ratePerDay,
      overDays: median(lenders.map(({ overDays }) => overDays)),
    },
    forms: known.forms,
  };
}
