import type { EvaluationColumns } from '../fouling/evaluation-columns';
import { median } from '../stats/quantile';

const DAY_MS = 86_400_000;
/** Readings this long after the first accepted one teach the clean reference [d] (common practice: before fouling shows). */
export const LEARNING_DAYS = 5;
/** Fewest accepted readings that may teach it [-] (one day of hourly data). */
export const FEWEST_LEARNING_READINGS = 24;
/** From a cleaning to the last reading that may teach: a unit may stand this long before it runs, plus the period itself [ms]. */
export const LEARNING_WINDOW_MS = 2 * LEARNING_DAYS * DAY_MS;

/** Factor on the clean resistance [-], and the readings it came from: their instants [ms] and number. */
export type LearnedScale = { scale: number; from: number; to: number; readings: number };

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
    const learned = learnFrom(evaluation, start);
    if (learned !== null) return learned;
  }
  return null;
}

function learnFrom({ time, reasons, cleanliness }: EvaluationColumns, start: number): LearnedScale | null {
  const first = time.findIndex((at, i) => at >= start && reasons[i] === 0);
  if (first < 0) return null;
  const from = time[first]!;
  // A unit that stood for long after its cleaning may have begun to foul meanwhile, or the cleaning predates the record.
  if (from - start > LEARNING_DAYS * DAY_MS && Number.isFinite(start)) return null;
  const ratios: number[] = [];
  let to = from;
  for (let i = first; i < time.length && time[i]! < from + LEARNING_DAYS * DAY_MS; i++) {
    if (reasons[i] !== 0) continue;
    ratios.push(1 / cleanliness[i]!);
    to = time[i]!;
  }
  if (ratios.length < FEWEST_LEARNING_READINGS) return null;
  return { scale: median(ratios), from, to, readings: ratios.length };
}
