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
const USUAL_SPREAD = 0.35;
const USUAL_SPREAD_OF_LIKE = 0.6;
const GUESS_COUNTS = 2;
/** The same for the asymptote: what limits the deposit changes less than what feeds it (own choice). */
const USUAL_ASYMPTOTE_SPREAD = 0.25;
/** A cycle tended to an asymptote where that model has more than this weight [-]. */
const CLEARLY = 0.5;
/** However alike they were, no rate is known better than this beforehand [-] (own choice). */
const LEAST_SPREAD = 0.15;

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
  /** Asymptotes of those cycles that clearly tended to one: their median [m²·K/W], departures as above, how many. */
  asymptote: { value: number; departure: number; cycles: number } | null;
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
    departure: departureFrom(ratePerDay, rates),
    asymptote: asymptoteOf(cycles),
    typical: [...typicalForms(cycles.map(({ evidence }) => evidence))],
  };
}

function asymptoteOf(cycles: readonly EndedCycle[]): Lending['asymptote'] {
  const asymptotes = cycles.flatMap(({ growth }) => {
    const model = growth.models.find(({ name, weight }) => name === 'asymptotic' && weight > CLEARLY);
    return model === undefined ? [] : [model.parameters.asymptote!];
  });
  if (asymptotes.length === 0) return null;
  const value = median(asymptotes);
  return { value, departure: departureFrom(value, asymptotes), cycles: asymptotes.length };
}

function departureFrom(middle: number, values: readonly number[]): number {
  return values.reduce((sum, value) => sum + (value / middle - 1) ** 2, 0);
}

/** What is expected of a cycle, and where that comes from. */
export type Expectation = { expected: Expected; borrowed: Borrowed };

/** Where neither the unit's own cycles nor like units tell anything. */
export const NOTHING_EXPECTED: Expectation = {
  expected: {},
  borrowed: { from: 'none', cycles: 0, units: 0 },
};

/**
 * What to expect of a cycle: by the unit's own ended cycles where they can tell, else by units of like service.
 *
 * @param own  what the unit's ended cycles say, or null
 * @param like what units of like service lead to expect, worked out once for all that listen to them
 * @returns prior rate and form for `fitGrowth`, and in words where they come from
 * @range  any
 * @source spread of a new draw s·√(1 + 1/n), s² with the usual spread counted as two cycles: Gelman et al., Bayesian Data
 *   Analysis, 3rd ed. 2013, sect. 2.6 (scaled inverse χ²)
 * @check  tests/core/pipeline/lending.test.ts
 */
export function expectation(own: Lending | null, like: Expectation = NOTHING_EXPECTED): Expectation {
  if (own === null) return like;
  return {
    expected: expectedOf([own], {
      usual: USUAL_SPREAD,
      forms: expectedForms(Float64Array.from(own.typical)),
    }),
    borrowed: { from: 'own-cycles', cycles: own.cycles, units: 0 },
  };
}

/**
 * What units of like service lead one to expect that has no cycle of its own to learn from: the same for each of those.
 *
 * @param like what each of them lends
 * @returns prior rate and form for `fitGrowth`, and in words where they come from; nothing where nobody lends
 * @range  any
 * @source spread of a new draw s·√(1 + 1/n), s² with the usual spread counted as two cycles: Gelman et al., Bayesian Data
 *   Analysis, 3rd ed. 2013, sect. 2.6 (scaled inverse χ²)
 * @check  tests/core/pipeline/lending.test.ts
 */
export function expectationFromLike(like: readonly Lending[]): Expectation {
  if (like.length === 0) return NOTHING_EXPECTED;
  const forms = expectedFromLike(like.map(({ typical }) => Float64Array.from(typical)));
  const cycles = like.reduce((sum, lending) => sum + lending.cycles, 0);
  return {
    expected: expectedOf(like, { usual: USUAL_SPREAD_OF_LIKE, forms }),
    borrowed: { from: 'like-units', cycles, units: like.length },
  };
}

function expectedOf(lenders: readonly Lending[], known: { usual: number; forms: FormPrior }): Expected {
  const rates = together(
    lenders.map(({ ratePerDay: value, departure, cycles }) => ({ value, departure, cycles })),
    known.usual,
  )!;
  const asymptotes = lenders.flatMap(({ asymptote }) => asymptote ?? []);
  return {
    prior: {
      ratePerDay: rates.value,
      ratePerDayUncertainty: rates.uncertainty,
      overDays: median(lenders.map(({ overDays }) => overDays)),
      asymptote: together(asymptotes, (USUAL_ASYMPTOTE_SPREAD * known.usual) / USUAL_SPREAD) ?? undefined,
    },
    forms: known.forms,
  };
}

/** Median and the uncertainty for a new cycle of what lenders say: one lender by its cycles, several by what they differ by. */
function together(
  told: readonly { value: number; departure: number; cycles: number }[],
  usual: number,
): { value: number; uncertainty: number } | null {
  if (told.length === 0) return null;
  const values = told.map(({ value }) => value);
  const value = median(values);
  const isOne = told.length === 1;
  const count = isOne ? told[0]!.cycles : told.length;
  const departure = isOne ? told[0]!.departure : departureFrom(value, values);
  return { value, uncertainty: value * spreadOfNew({ count, departure, usual }) };
}

/** Relative spread of one more draw, given so many with their departures, the usual spread counted as two of them [-]. */
function spreadOfNew({
  count,
  departure,
  usual,
}: {
  count: number;
  departure: number;
  usual: number;
}): number {
  const variance = (GUESS_COUNTS * usual ** 2 + departure) / (GUESS_COUNTS + count - 1);
  return Math.max(LEAST_SPREAD, Math.sqrt(variance * (1 + 1 / count)));
}

/**
 * How far the rate of the next cycle may be from that of this one.
 *
 * @param own what the unit's ended cycles say; null where they cannot tell
 * @returns relative standard deviation [-]: by the scatter of the ended cycles, else that of one cycle against the usual
 * @range  any
 * @source as `expectation`
 * @check  tests/core/pipeline/lending.test.ts
 */
export function spreadOfNextRate(own: Lending | null): number {
  const told = own ?? { cycles: 1, departure: 0 };
  return spreadOfNew({ count: told.cycles, departure: told.departure, usual: USUAL_SPREAD });
}
