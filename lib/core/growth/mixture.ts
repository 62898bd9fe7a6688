import { type Components, componentsOf, type Slices, type Votes } from './components';
import { formColumn } from './form-column';
import { growthForm } from './forms';
import type { Growth } from './growth';

/**
 * Model-form uncertainty: the growth still to come may differ from the fitted curve's by this share (standard
 * deviation), one factor for the whole future. Set on simulated fleets so that P10–P90 holds 80 % (tests/properties/growth.test.ts).
 */
export const FUTURE_GROWTH_DEVIATION = 0.01;
/**
 * Votes of the models in a projection, on top of their AICc weights. A young asymptotic curve looks like a power of
 * time, which reaches the limit sooner; with equal votes P10–P90 held only 69 % of asymptotic cycles, with these
 * 80 ± 5 % of every kind (tests/properties/growth.test.ts, 2000 cycles).
 */
export const PROJECTION_VOTES: Votes = {
  none: 1,
  linear: 1,
  'delayed-linear': 1,
  'falling-rate': 1,
  asymptotic: 2,
};
/** Votes for the state at the last figure, which all models describe alike, and where other cycles have had their say. */
export const EQUAL_VOTES: Votes = { ...PROJECTION_VOTES, asymptotic: 1 };

/**
 * The distribution of the smooth fouling to come: a mixture by the votes that a projection gives its models.
 *
 * @param growth fitted growth with at least one model
 * @returns mixture
 * @range at least one model
 * @source see `PROJECTION_VOTES`
 * @check tests/properties/growth.test.ts
 */
export function projectionOf(growth: Growth): Mixture {
  const known = PROJECTIONS.get(growth);
  const made = known ?? mixtureOf(growth, growth.isFormExpected ? EQUAL_VOTES : PROJECTION_VOTES);
  if (known === undefined) PROJECTIONS.set(growth, made);
  // Whoever projects has room of its own for what it evaluates.
  return withRoom(made);
}

/** Mixtures of growths that were projected: band, crossings and outlook ask for the same one. */
const PROJECTIONS = new WeakMap<Growth, Mixture>();

/** With their form at the last figure [-, as `growthForm`]. */
type FormedSlices = Slices & { lastForm: number };

/** All curves of all models, and room for their values at one age. */
export type Mixture = Components & {
  slices: FormedSlices[];
  lastAgeDays: number;
  /** Mean and standard deviation of each component at the age last evaluated [m²·K/W]. */
  means: Float64Array;
  deviations: Float64Array;
};

/**
 * The distribution of the smooth fouling as a mixture of normal curves: every curve of every model by its weight.
 *
 * @param growth models with their curves, and the age of the last figure [days]
 * @param votes prior weight of each model [-]
 * @returns mixture
 * @range at least one model
 * @source Burnham & Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002, sect. 4.3
 * @check tests/core/growth/mixture.test.ts
 */
export function mixtureOf(growth: Pick<Growth, 'models' | 'lastAgeDays'>, votes: Votes): Mixture {
  const { lastAgeDays } = growth;
  const { components, slices } = componentsOf(growth.models, votes);
  return withRoom({
    ...components,
    slices: slices.map((own) => ({ ...own, lastForm: growthForm(own.name, own.shape, lastAgeDays) })),
    lastAgeDays,
  });
}

function withRoom(mixture: Omit<Mixture, 'means' | 'deviations'>): Mixture {
  const { length } = mixture.weights;
  return { ...mixture, means: new Float64Array(length), deviations: new Float64Array(length) };
}

/**
 * Evaluates every component at an age; beyond the last figure the model-form uncertainty of the growth since is added.
 *
 * @param mixture changed: its means and deviations [m²·K/W]
 * @param ageDays [days], ≥ 0
 * @returns mixture
 * @range ageDays ≥ 0
 * @source JCGM 100:2008, eq. 13 (variance of a linear function)
 * @check tests/core/growth/mixture.test.ts
 */
export function evaluateMixture(mixture: Mixture, ageDays: number): Mixture {
  for (const own of mixture.slices)
    evaluateSlices(mixture, own, { ageDays, form: growthForm(own.name, own.shape, ageDays) });
  return mixture;
}

/**
 * Evaluates every component at one of many ages, of which the forms are worked out at once: cheaper than one by one.
 *
 * @param mixture changed by what is returned: its means and deviations [m²·K/W]
 * @param ages [days], ≥ 0, ascending
 * @returns what `evaluateMixture` does at the age of an index
 * @range ages ≥ 0
 * @source as `evaluateMixture`
 * @check tests/core/growth/mixture.test.ts
 */
export function evaluateAlong(mixture: Mixture, ages: Float64Array): (index: number) => Mixture {
  const forms = mixture.slices.map(({ name, shape }) =>
    formColumn(name, shape, { t: ages, out: new Float64Array(ages.length) }),
  );
  return (index) => {
    for (let s = 0; s < forms.length; s++)
      evaluateSlices(mixture, mixture.slices[s]!, { ageDays: ages[index]!, form: forms[s]![index]! });
    return mixture;
  };
}

type Place = { ageDays: number; form: number };

function evaluateSlices(
  mixture: Mixture,
  { from, to, lastForm }: FormedSlices,
  { ageDays, form }: Place,
): void {
  const { r0, amplitudes, r0Variances, amplitudeVariances, covariances, means, deviations } = mixture;
  const ahead = ageDays > mixture.lastAgeDays ? form - lastForm : 0;
  for (let i = from; i < to; i++) {
    const future = FUTURE_GROWTH_DEVIATION * amplitudes[i]! * ahead;
    const variance =
      r0Variances[i]! + form * (2 * covariances[i]! + form * amplitudeVariances[i]!) + future * future;
    means[i] = r0[i]! + amplitudes[i]! * form;
    deviations[i] = Math.sqrt(Math.max(0, variance));
  }
}
