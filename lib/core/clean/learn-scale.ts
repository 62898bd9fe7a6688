import type { EvaluationColumns } from '../fouling/evaluation-columns';
import { effectiveCount, lagOneAutocorrelation } from '../stats/autocorrelation';
import { median } from '../stats/quantile';
import { medianAbsoluteDeviation, NORMAL_CONSISTENCY } from '../stats/spread';

const DAY_MS = 86_400_000;
/** Readings this long after the first accepted one teach the clean reference [d] (common practice: before fouling shows). */
export const LEARNING_DAYS = 5;
/** Fewest accepted readings that may teach it [-] (one day of hourly data). */
export const FEWEST_LEARNING_READINGS = 24;
/** From a cleaning to the last reading that may teach: a unit may stand this long before it runs, plus the period itself [ms]. */
export const LEARNING_WINDOW_MS = 2 * LEARNING_DAYS * DAY_MS;
/** Standard error of a median over that of a mean, for normal data: √(π/2) [-]. */
const MEDIAN_OVER_MEAN = Math.sqrt(Math.PI / 2);

/** Factor on the clean resistance [-] with its standard error from scatter, and the readings it came from: instants [ms] and number. */
export type LearnedScale = { scale: number; uncertainty: number; from: number; to: number; readings: number };

/**
 * Learns the clean reference: one factor on the datasheet's clean resistance, the median of Uc/U over the accepted
 * readings of the first days after the first recorded cleaning that has enough of them; without any recorded cleaning,
 * of the first days of the record.
 *
 * @param evaluation readings evaluated with the scale 1 (cleanliness = U/Uc of the datasheet)
 * @param cleanings  instants of the recorded cleanings [ms], ascending
 * @returns the factor and its evidence; null where too few readings can teach it
 * @range  at least 24 accepted readings within 5 days; the unit must have run within 5 days of the cleaning
 * @source METHODS §5; common practice
 * @check  tests/core/clean/learn-scale.test.ts
 */
export function learnScale(
  evaluation: EvaluationColumns,
  cleanings: readonly number[] = [],
): LearnedScale | null {
  const starts = cleanings.length > 0 ? cleanings : [Number.NEGATIVE_INFINITY];
  for (const start of starts) {
    const from = learningStart(evaluation, start);
    if (from === null) continue;
    const learned = learnScaleWithin(evaluation, from, from + LEARNING_DAYS * DAY_MS);
    if (learned !== null) return learned;
  }
  return null;
}

/** First accepted reading after a cleaning; null where the unit stood for too long, or there is none. */
function learningStart({ time, reasons }: EvaluationColumns, start: number): number | null {
  const first = time.findIndex((at, i) => at >= start && reasons[i] === 0);
  if (first < 0) return null;
  const from = time[first]!;
  // A unit that stood for long after its cleaning may have begun to foul meanwhile, or the cleaning predates the record.
  return from - start > LEARNING_DAYS * DAY_MS && Number.isFinite(start) ? null : from;
}

/**
 * One factor on the clean resistance from a period that somebody knows to be clean: the median of Uc/U.
 *
 * @param evaluation readings evaluated with the factors 1 (cleanliness = U/Uc of the datasheet)
 * @param from       beginning of the period [ms]
 * @param to         its end [ms]; readings before it count
 * @returns the factor, its standard error from scatter with neighbouring readings' correlation allowed for, and its
 *   evidence; null for fewer than 24 accepted readings. What every reading shares is not in the standard error: it
 *   stands in every later reading alike and largely cancels in Rf
 * @range  any period
 * @source METHODS §5; standard error of a median √(π/2)·σ/√n: Kendall's Advanced Theory of Statistics, vol. 1, 6th ed. 1994, sect. 10.10
 * @check  tests/core/clean/learn-scale.test.ts
 */
export function learnScaleWithin(
  { time, reasons, cleanliness }: EvaluationColumns,
  from: number,
  to: number,
): LearnedScale | null {
  const rows: number[] = [];
  for (let i = 0; i < time.length; i++) {
    if (reasons[i] === 0 && time[i]! >= from && time[i]! < to) rows.push(i);
  }
  if (rows.length < FEWEST_LEARNING_READINGS) return null;
  const ratios = rows.map((i) => 1 / cleanliness[i]!);
  const scatter = NORMAL_CONSISTENCY * medianAbsoluteDeviation(ratios);
  const independent = effectiveCount(rows.length, Math.max(0, lagOneAutocorrelation(ratios)));
  return {
    scale: median(ratios),
    uncertainty: (MEDIAN_OVER_MEAN * scatter) / Math.sqrt(independent),
    from: time[rows[0]!]!,
    to: time[rows.at(-1)!]!,
    readings: rows.length,
  };
}
