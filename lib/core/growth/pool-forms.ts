import { GROWTH_FORMS, isShaped, placeOf, placeSpread, placeStep, placesCovered } from './form-grid';
import { GROWTH_MODELS, type GrowthModelName } from './growth';

/** Logarithm of the likelihood of a cycle's figures under each of GROWTH_FORMS, up to a constant [-]. */
export type FormEvidence = Float64Array;

/** What is expected of the form of a cycle before its own figures are seen. */
export type FormPrior = {
  /** Expected share of each model, times the number of models [-]: 1 says nothing. */
  votes: Record<GrowthModelName, number>;
  /** Logarithm of the density of each of GROWTH_FORMS within its model, relative to an even one [-]. */
  logDensity: Float64Array;
};

/** The next cycle of a unit follows another mechanism, of which the earlier ones say nothing, this often [-] (own choice). */
const OTHER_MECHANISM = 0.1;
/** A unit of like service does so this often, and its shapes spread by this factor more [-] (own choice). */
const OTHER_MECHANISM_OF_LIKE = 0.4;
const SPREAD_OF_LIKE = 2;
/** No form is ruled out by what other cycles did. */
const LEAST_DENSITY = 1e-6;

const COUNT = GROWTH_FORMS.length;
/** Models equally likely, shapes even within each. */
const EVEN = Float64Array.from(GROWTH_FORMS, ({ name }) => {
  const forms = GROWTH_FORMS.filter((other) => other.name === name).length;
  return 1 / (GROWTH_MODELS.length * forms);
});
/** Probability of each form (column) of one cycle, given the unit's typical form (row). */
const CYCLE_OF_UNIT = transition(OTHER_MECHANISM, 1);
const CYCLE_OF_LIKE_UNIT = transition(OTHER_MECHANISM_OF_LIKE, SPREAD_OF_LIKE);

/**
 * What the cycles of a unit together say of its typical form. Each cycle's own form lies about the typical one: its shape
 * spreads, and one cycle in ten follows another mechanism altogether.
 *
 * @param evidences evidence of each ended cycle, any order
 * @returns probability of each of GROWTH_FORMS being typical of the unit [-], adding to 1; even without evidence
 * @range  any
 * @source Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, ch. 5 (hierarchical models), on a grid
 * @check  tests/core/growth/pool-forms.test.ts
 */
export function typicalForms(evidences: readonly FormEvidence[]): Float64Array {
  const logarithms = EVEN.map((probability) => Math.log(probability));
  for (const evidence of evidences) {
    const most = evidence.reduce((best, value) => Math.max(best, value), Number.NEGATIVE_INFINITY);
    const likelihood = evidence.map((value) => Math.exp(value - most));
    for (let g = 0; g < COUNT; g++) logarithms[g]! += Math.log(rowTimes(CYCLE_OF_UNIT, g, likelihood));
  }
  const most = logarithms.reduce((best, value) => Math.max(best, value), Number.NEGATIVE_INFINITY);
  return normalised(logarithms.map((value) => Math.exp(value - most)));
}

/**
 * What to expect of the next cycle of a unit whose typical form is known this well.
 *
 * @param typical as `typicalForms` gives it
 * @returns expected form
 * @range  any
 * @source as `typicalForms` (posterior predictive)
 * @check  tests/core/growth/pool-forms.test.ts
 */
export function expectedForms(typical: Float64Array): FormPrior {
  return toPrior(timesColumns(typical, CYCLE_OF_UNIT));
}

/**
 * What to expect of a cycle from units of like service: any of them may be the one that is most like this unit.
 *
 * @param likeUnits typical forms of at least one unit
 * @returns expected form, wider than that from the unit's own cycles
 * @range  at least one unit
 * @source mixture over exchangeable units: Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, sect. 5.2
 * @check  tests/core/growth/pool-forms.test.ts
 */
export function expectedFromLike(likeUnits: readonly Float64Array[]): FormPrior {
  const mean = new Float64Array(COUNT);
  for (const typical of likeUnits) {
    for (let g = 0; g < COUNT; g++) mean[g]! += typical[g]! / likeUnits.length;
  }
  return toPrior(timesColumns(mean, CYCLE_OF_LIKE_UNIT));
}

/**
 * Logarithm of the expected density of a shape within its model, relative to an even one; linear between neighbours.
 *
 * @param prior expected form
 * @param name  growth model
 * @param shape its delay [days], exponent [-] or time constant [days]
 * @returns [-]; 0 for a model without shape; beyond the places covered that of the nearest
 * @range  shape > 0
 * @source linear interpolation
 * @check  tests/core/growth/pool-forms.test.ts
 */
export function logDensityAt(prior: FormPrior, name: GrowthModelName, shape: number): number {
  if (!isShaped(name)) return 0;
  const first = FIRST[name];
  const last = first + FORMS_OF[name] - 1;
  const [from] = placesCovered(name);
  const at = first + (placeOf(name, shape) - from) / placeStep(name);
  if (!(at > first)) return prior.logDensity[first]!;
  if (at >= last) return prior.logDensity[last]!;
  const below = Math.floor(at);
  const share = at - below;
  return (1 - share) * prior.logDensity[below]! + share * prior.logDensity[below + 1]!;
}

const FIRST = Object.fromEntries(
  GROWTH_MODELS.map((name) => [name, GROWTH_FORMS.findIndex((form) => form.name === name)]),
) as Record<GrowthModelName, number>;
const FORMS_OF = Object.fromEntries(
  GROWTH_MODELS.map((name) => [name, GROWTH_FORMS.filter((form) => form.name === name).length]),
) as Record<GrowthModelName, number>;

/** Row by row: the probability of each form of a cycle when the typical one is the row's. */
function transition(otherMechanism: number, factor: number): Float64Array {
  const matrix = new Float64Array(COUNT * COUNT);
  GROWTH_FORMS.forEach((typical, g) => {
    const near = GROWTH_FORMS.map((form) => {
      if (form.name !== typical.name) return 0;
      if (!isShaped(form.name)) return 1;
      const distance = placeOf(form.name, form.shape) - placeOf(form.name, typical.shape);
      return Math.exp(-((distance / (factor * placeSpread(form.name))) ** 2) / 2);
    });
    const sum = near.reduce((total, value) => total + value, 0);
    near.forEach((value, f) => {
      matrix[g * COUNT + f] = ((1 - otherMechanism) * value) / sum + otherMechanism * EVEN[f]!;
    });
  });
  return matrix;
}

function rowTimes(matrix: Float64Array, row: number, values: Float64Array): number {
  let sum = 0;
  for (let f = 0; f < COUNT; f++) sum += matrix[row * COUNT + f]! * values[f]!;
  return sum;
}

function timesColumns(weights: Float64Array, matrix: Float64Array): Float64Array {
  const result = new Float64Array(COUNT);
  for (let g = 0; g < COUNT; g++) {
    for (let f = 0; f < COUNT; f++) result[f]! += weights[g]! * matrix[g * COUNT + f]!;
  }
  return result;
}

function toPrior(expected: Float64Array): FormPrior {
  const votes = Object.fromEntries(
    GROWTH_MODELS.map((name) => [name, GROWTH_MODELS.length * sumOf(expected, name)]),
  ) as Record<GrowthModelName, number>;
  const logDensity = expected.map((probability, f) => {
    const { name } = GROWTH_FORMS[f]!;
    const even = sumOf(expected, name) / FORMS_OF[name];
    return Math.log(Math.max(LEAST_DENSITY, probability / even));
  });
  return { votes, logDensity };
}

function sumOf(probabilities: Float64Array, name: GrowthModelName): number {
  let sum = 0;
  for (let f = FIRST[name]; f < FIRST[name] + FORMS_OF[name]; f++) sum += probabilities[f]!;
  return sum;
}

function normalised(values: Float64Array): Float64Array {
  const sum = values.reduce((total, value) => total + value, 0);
  return values.map((value) => value / sum);
}
