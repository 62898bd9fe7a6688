import { huberLine } from '../fit/huber';
import { firstRows, floatColumns } from '../series/float-columns';
import { medianInPlace } from '../stats/median-in-place';
import { median } from '../stats/quantile';
import { formColumn } from './form-column';
import type { GrowthModelName } from './growth';

/** Daily figures of one cycle as a fit uses them: finite, each with the standard deviation that sets its weight. */
export type DailyFigures = {
  /** Ages [days], ascending. */
  t: Float64Array;
  /** Fouling resistance [m²·K/W]. */
  y: Float64Array;
  /** Standard deviation about the smooth curve [m²·K/W]; outlying days have a large one. */
  deviation: Float64Array;
  /** The trial curve that fitted best, as a form for the noise model. */
  trial: { name: GrowthModelName; shape: number };
};

/** Figures as they are given: ages [days] ascending, fouling and its random standard uncertainty [m²·K/W], equal lengths. */
export type GivenFigures = Record<'ageDays' | 'foulingResistance' | 'uncertainty', ArrayLike<number>>;

/** Below this many figures no day can be told to be outlying. */
const FEWEST_TO_SCREEN = 6;
/** Hampel's three-part influence: full weight up to 3 deviations, none beyond 5. */
const FULL_WEIGHT_TO = 3;
const NO_WEIGHT_FROM = 5;
/** A day of less weight than this is left out: it must not serve as the predecessor of the next day's noise. */
const LEAST_WEIGHT = 0.05;
/** A trial curve is settled enough to find what is outlying: the scale of a hundred figures is itself known to a tenth. */
const SCREENING = { maximumIterations: 20, scaleTolerance: 1e-3 };
/** Deviation of figures that carry none, relative to the largest of them: numbers as good as exact. */
const LEAST_RELATIVE_DEVIATION = 1e-6;

/**
 * Prepares daily figures: drops what is not a number, adds the day-to-day scatter that the stated uncertainty does
 * not explain, and takes the weight from outlying days, judged against the best of a few robust trial curves.
 *
 * @param figures ageDays [days] ascending, foulingResistance and its random standard uncertainty [m²·K/W]; equal lengths
 * @returns figures with deviations; outlying days are left out
 * @range any count; RangeError for unequal lengths or ages not ascending; outliers are found from 6 figures on
 * @source Hampel, J. Am. Stat. Assoc. 69 (1974) 383-393 (three-part influence); extra variance as in DerSimonian & Laird, Control. Clin. Trials 7 (1986) 177-188
 * @check tests/core/growth/daily-figures.test.ts
 */
export function dailyFigures(figures: GivenFigures): DailyFigures {
  const { t, y, stated } = sound(figures);
  if (t.length < FEWEST_TO_SCREEN) return { t, y, deviation: stated, trial: { name: 'linear', shape: 0 } };
  const { residuals, scale, trial } = bestTrial(t, y);
  const extra = Math.max(0, scale ** 2 - median(stated) ** 2);
  const used = { t: new Float64Array(t.length), y: new Float64Array(t.length), deviation: stated };
  let count = 0;
  for (let i = 0; i < t.length; i++) {
    const deviation = screenedDeviation(residuals[i]!, Math.sqrt(stated[i]! * stated[i]! + extra));
    if (deviation === Number.POSITIVE_INFINITY) continue;
    used.t[count] = t[i]!;
    used.y[count] = y[i]!;
    used.deviation[count++] = deviation;
  }
  return { ...firstRows(used, count), trial };
}

/** Days on which age and fouling are numbers. */
function sound({ ageDays, foulingResistance, uncertainty }: GivenFigures) {
  const { length } = ageDays;
  if (foulingResistance.length !== length || uncertainty.length !== length)
    throw new RangeError('ageDays, foulingResistance and uncertainty must have the same length');
  const given = floatColumns(['t', 'y', 'deviation'], length);
  let count = 0;
  for (let i = 0; i < length; i++) {
    const age = ageDays[i]!;
    if (!Number.isFinite(age) || !Number.isFinite(foulingResistance[i]!)) continue;
    if (!(age >= 0) || (count > 0 && !(age > given.t[count - 1]!)))
      throw new RangeError('ageDays must be ascending, without duplicates, and not negative');
    given.t[count] = age;
    given.y[count] = foulingResistance[i]!;
    given.deviation[count++] = uncertainty[i]!;
  }
  const { t, y, deviation } = firstRows(given, count);
  return { t, y, stated: statedDeviation(deviation, y) };
}

/** Stated uncertainties, the median of the sound ones in place of any that is missing; overwritten. */
function statedDeviation(uncertainty: Float64Array, y: Float64Array): Float64Array {
  const usual = new Float64Array(uncertainty.length);
  let count = 0;
  let largest = 0;
  for (let i = 0; i < y.length; i++) {
    largest = Math.max(largest, Math.abs(y[i]!));
    if (isStated(uncertainty[i]!)) usual[count++] = uncertainty[i]!;
  }
  const floor = LEAST_RELATIVE_DEVIATION * (largest || 1);
  const missing = count > 0 ? medianInPlace(usual, count) : floor;
  for (let i = 0; i < y.length; i++) {
    const value = uncertainty[i]!;
    uncertainty[i] = Math.max(floor, isStated(value) ? value : missing);
  }
  return uncertainty;
}

function isStated(uncertainty: number): boolean {
  return uncertainty > 0 && uncertainty < Number.POSITIVE_INFINITY;
}

/** Infinity for a day of so little weight that it is left out. */
function screenedDeviation(residual: number, deviation: number): number {
  const weight = influenceWeight(residual / deviation);
  return weight > LEAST_WEIGHT ? deviation / Math.sqrt(weight) : Number.POSITIVE_INFINITY;
}

function influenceWeight(standardised: number): number {
  const distance = Math.abs(standardised);
  if (distance <= FULL_WEIGHT_TO) return 1;
  if (distance >= NO_WEIGHT_FROM) return 0;
  return (FULL_WEIGHT_TO * (NO_WEIGHT_FROM - distance)) / ((NO_WEIGHT_FROM - FULL_WEIGHT_TO) * distance);
}

/** Curves of every kind, as shares of the record, among which the robust screening chooses. */
const TRIALS: { name: GrowthModelName; share: number }[] = [
  { name: 'linear', share: 0 },
  { name: 'falling-rate', share: 0.5 },
  { name: 'asymptotic', share: 0.4 },
  { name: 'delayed-linear', share: 0.3 },
  { name: 'delayed-linear', share: 0.6 },
];

function bestTrial(t: Float64Array, y: Float64Array) {
  const last = t.at(-1)!;
  const fits = TRIALS.map(({ name, share }) => {
    const shape = name === 'falling-rate' ? share : share * last;
    const form = formColumn(name, shape, { t, out: new Float64Array(t.length) });
    return { ...huberLine(form, y, SCREENING), form, trial: { name, shape } };
  });
  const { intercept, slope, form, scale, trial } = fits.reduce((best, fit) =>
    fit.scale < best.scale ? fit : best,
  );
  const residuals = new Float64Array(t.length);
  for (let i = 0; i < t.length; i++) residuals[i] = y[i]! - intercept - slope * form[i]!;
  return { residuals, scale, trial };
}
