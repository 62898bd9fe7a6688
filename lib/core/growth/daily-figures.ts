import { huberLine } from '../fit/huber';
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

/** Below this many figures no day can be told to be outlying. */
const FEWEST_TO_SCREEN = 6;
/** Hampel's three-part influence: full weight up to 3 deviations, none beyond 5. */
const FULL_WEIGHT_TO = 3;
const NO_WEIGHT_FROM = 5;
/** A day of less weight than this is left out: it must not serve as the predecessor of the next day's noise. */
const LEAST_WEIGHT = 0.05;
/** Reweighting steps of a trial curve: enough to find what is outlying. */
const SCREENING_STEPS = 12;
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
export function dailyFigures(figures: {
  ageDays: ArrayLike<number>;
  foulingResistance: ArrayLike<number>;
  uncertainty: ArrayLike<number>;
}): DailyFigures {
  const { ageDays, foulingResistance, uncertainty } = figures;
  if (foulingResistance.length !== ageDays.length || uncertainty.length !== ageDays.length)
    throw new RangeError('ageDays, foulingResistance and uncertainty must have the same length');
  const kept: number[] = [];
  for (let i = 0; i < ageDays.length; i++) {
    if (Number.isFinite(ageDays[i]!) && Number.isFinite(foulingResistance[i]!)) kept.push(i);
  }
  const t = Float64Array.from(kept, (i) => ageDays[i]!);
  if (t.some((age, i) => age < 0 || (i > 0 && age <= t[i - 1]!)))
    throw new RangeError('ageDays must be ascending, without duplicates, and not negative');
  const y = Float64Array.from(kept, (i) => foulingResistance[i]!);
  const stated = statedDeviation(
    Float64Array.from(kept, (i) => uncertainty[i]!),
    y,
  );
  if (t.length < FEWEST_TO_SCREEN) return { t, y, deviation: stated, trial: { name: 'linear', shape: 0 } };
  const { residuals, scale, trial } = bestTrial(t, y);
  const extra = Math.max(0, scale ** 2 - median(stated) ** 2);
  const total = stated.map((value) => Math.sqrt(value ** 2 + extra));
  const weights = residuals.map((residual, i) => influenceWeight(residual / total[i]!));
  const isUsed = (_: number, i: number) => weights[i]! > LEAST_WEIGHT;
  const deviation = total.map((value, i) => value / Math.sqrt(weights[i]!)).filter(isUsed);
  return { t: t.filter(isUsed), y: y.filter(isUsed), deviation, trial };
}

/** Stated uncertainties, the median of the sound ones in place of any that is missing. */
function statedDeviation(uncertainty: Float64Array, y: Float64Array): Float64Array {
  const sound = uncertainty.filter((value) => value > 0 && Number.isFinite(value));
  const largest = y.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const floor = LEAST_RELATIVE_DEVIATION * (largest || 1);
  const usual = sound.length > 0 ? median(sound) : floor;
  return uncertainty.map((value) => Math.max(floor, value > 0 && Number.isFinite(value) ? value : usual));
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
    const { intercept, slope, scale } = huberLine(form, y, { maximumIterations: SCREENING_STEPS });
    return {
      residuals: y.map((value, i) => value - intercept - slope * form[i]!),
      scale,
      trial: { name, shape },
    };
  });
  return fits.reduce((best, fit) => (fit.scale < best.scale ? fit : best));
}
