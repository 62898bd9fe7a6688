import { GROWTH_FORMS, placesCovered, shapeAt } from './form-grid';
import { amplitudeOf, delayedAge, growthForm, shapeOf } from './forms';
import type { FittedModel, GrowthModelName } from './growth';

/** Places tried first where other cycles may tell the shape [-]. */
export const COARSE_WITH_OTHERS = 41;
/** Powers of ages up to this one are worked out together [days]: more than ten years of one cycle. */
const LONGEST_DAYS = 4096;
/** With more days than this to one age, the powers of the days between are not worth it [-]. */
const SPARSE = 4;

/** A power by the logarithm of its base costs a quarter of one without, one by the powers of two factors a tenth. */
const LOGARITHMS = new Float64Array(LONGEST_DAYS).map((_, day) => Math.log(day));
const LEAST_FACTORS = new Uint16Array(LONGEST_DAYS).map((_, day) => leastFactor(day));
const COFACTORS = LEAST_FACTORS.map((factor, day) => (factor === 0 ? 0 : day / factor));

/** Room for powers of whole days, overwritten by each exponent. */
const ROOM = new Float64Array(LONGEST_DAYS);
/** Exponents that the cycles of every unit are tried on, with the powers of whole days as far as they were asked for. */
const KEPT = new Map<number, Float64Array>(
  [
    ...GROWTH_FORMS.filter(({ name }) => name === 'falling-rate').map(({ shape }) => shape),
    ...coarseExponents(),
  ].map((exponent) => [exponent, new Float64Array()]),
);

function leastFactor(day: number): number {
  for (let factor = 2; factor * factor <= day; factor++) if (day % factor === 0) return factor;
  return day;
}

function coarseExponents(): number[] {
  const [from, to] = placesCovered('falling-rate');
  const step = (to - from) / (COARSE_WITH_OTHERS - 1);
  return Array.from({ length: COARSE_WITH_OTHERS }, (_, i) => shapeAt('falling-rate', from + i * step));
}

type Column = { t: Float64Array; out: Float64Array };

/**
 * The form of a growth model at many ages.
 *
 * @param name growth model
 * @param shape as for `growthForm`
 * @param t ages [days], ≥ 0 and ascending, n values
 * @param out n values, overwritten: `growthForm` at each of them, to n units in its last place
 * @returns out
 * @range as for `growthForm`
 * @source see `growthForm`
 * @check tests/core/growth/forms.test.ts
 */
export function formColumn(name: GrowthModelName, shape: number, { t, out }: Column): Float64Array {
  if (name === 'asymptotic') return approaches(shape, { t, out });
  if (name === 'falling-rate') return powers(shape, { t, out });
  if (name === 'delayed-linear') return delayedAges(shape, { t, out });
  for (let i = 0; i < t.length; i++) out[i] = growthForm(name, shape, t[i]!);
  return out;
}

/**
 * Smooth fouling resistance of a growth model at many ages.
 *
 * @param model name and parameters
 * @param t ages [days], ≥ 0 and ascending, n values
 * @param out n values, overwritten [m²·K/W]
 * @returns out
 * @range as for `growthValue`
 * @source see `growthValue`
 * @check tests/core/growth/forms.test.ts
 */
export function growthColumn(
  model: Pick<FittedModel, 'name' | 'parameters'>,
  { t, out }: Column,
): Float64Array {
  const r0 = model.parameters.r0!;
  const amplitude = amplitudeOf(model);
  formColumn(model.name, shapeOf(model), { t, out });
  for (let i = 0; i < out.length; i++) out[i] = r0 + amplitude * out[i]!;
  return out;
}

function delayedAges(delay: number, { t, out }: Column): Float64Array {
  for (let i = 0; i < t.length; i++) out[i] = delayedAge(delay, t[i]!);
  return out;
}

/** Step by step: what is left of the way to the asymptote shrinks by the same share in equal steps, and most are of one day. */
function approaches(timeConstant: number, { t, out }: Column): Float64Array {
  let age = 0;
  let value = 0;
  let step = 0;
  let gain = 0;
  for (let i = 0; i < t.length; i++) {
    if (t[i]! - age !== step) {
      step = t[i]! - age;
      gain = growthForm('asymptotic', timeConstant, step);
    }
    age = t[i]!;
    value = gain + (1 - gain) * value;
    out[i] = value;
  }
  return out;
}

function powers(exponent: number, { t, out }: Column): Float64Array {
  const days = Math.min(LONGEST_DAYS, Math.ceil(t.at(-1) ?? 0) + 1);
  const known = days > SPARSE * t.length ? null : powersOfDays(exponent, days);
  for (let i = 0; i < t.length; i++) {
    const power = known === null ? powerOfDay(exponent, t[i]!) : known[t[i]!];
    out[i] = power === undefined ? growthForm('falling-rate', exponent, t[i]!) : power;
  }
  return out;
}

/** A power of a whole day; nothing for other ages. */
function powerOfDay(exponent: number, day: number): number | undefined {
  const logarithm = LOGARITHMS[day];
  return logarithm === undefined ? undefined : Math.exp(exponent * logarithm);
}

/** Powers of the whole days from 0 on, at least so many. */
function powersOfDays(exponent: number, days: number): Float64Array {
  const kept = KEPT.get(exponent);
  if (kept === undefined) return writePowers(exponent, ROOM, days);
  if (kept.length >= days) return kept;
  const length = Math.min(LONGEST_DAYS, 2 * days);
  const longer = writePowers(exponent, new Float64Array(length), length);
  KEPT.set(exponent, longer);
  return longer;
}

function writePowers(exponent: number, powers: Float64Array, days: number): Float64Array {
  for (let day = 0; day < days; day++) {
    const factor = LEAST_FACTORS[day]!;
    powers[day] =
      factor === day ? Math.exp(exponent * LOGARITHMS[day]!) : powers[factor]! * powers[COFACTORS[day]!]!;
  }
  return powers;
}
