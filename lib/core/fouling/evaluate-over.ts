import type { CheckSettings } from '../checks/check-settings';
import type { JudgedPeriod } from '../checks/judged-period';
import { nominalSensors } from '../checks/nominal-sensors';
import { CHECK_REACH_MS, firstReached } from '../checks/screen';
import type { CleanFactors } from '../clean/clean-reference';
import type { Exchanger } from '../exchange/exchanger';
import { firstNotBefore } from '../series/first-not-before';
import { type ReadingColumns, sliceReadings } from '../series/reading-columns';
import { evaluateReadings, type Rows } from './evaluate-readings';
import { copyEvaluation, type EvaluationColumns, makeEvaluationColumns } from './evaluation-columns';
import { unitModel } from './unit-model';

/** What readings from an instant on are judged by: the unit as it then was, its thresholds, its clean reference. */
export type Basis = {
  /** [ms]; the first basis reaches back for ever, whatever it says here. */
  from: number;
  exchanger: Exchanger;
  settings: CheckSettings;
  cleanFactors: CleanFactors;
};

/**
 * The basis that holds at an instant.
 *
 * @param bases at least one, ascending by `from` [ms]
 * @param at    instant [ms]
 * @returns the last one that began at or before it; the first for anything earlier
 * @range  RangeError without any basis
 * @source none: selection only
 * @check  tests/core/fouling/evaluate-over.test.ts
 */
export function basisAt<B extends Basis>(bases: readonly B[], at: number): B {
  const found = bases.findLast(({ from }) => from <= at) ?? bases[0];
  if (found === undefined) throw new RangeError('there is no basis to evaluate by');
  return found;
}

/**
 * Evaluates readings of a unit that changed over time (plates added, clean reference learned anew): each reading by the
 * basis that held at its instant. Screening looks across a change, so that a window does not end there.
 *
 * @param bases    at least one, ascending by `from` [ms]
 * @param readings columns of length n in time order
 * @param known    bits of the unit's nominal sensors over its whole record, worked out from `readings` where not given;
 *   what people said of readings; rows to evaluate, all where not given: the others only serve their screening
 * @returns columns of the rows to evaluate, as `evaluateReadings`
 * @range  RangeError without any basis, and for an impossible datasheet
 * @source none: one call of `evaluateReadings` per basis
 * @check  tests/core/fouling/evaluate-over.test.ts
 */
export function evaluateOver(
  bases: readonly Basis[],
  readings: ReadingColumns,
  known: { nominal?: number; judged?: readonly JudgedPeriod[]; rows?: Rows } = {},
): EvaluationColumns {
  const { nominal = nominalSensors(readings), judged = [] } = known;
  const { time } = readings;
  const rows = known.rows ?? { from: 0, to: time.length };
  const first = time[rows.from] ?? 0;
  const last = time[rows.to - 1] ?? 0;
  const reached = bases.filter((basis, index) => {
    const until = bases[index + 1]?.from ?? Number.POSITIVE_INFINITY;
    return until > first && (index === 0 || basis.from <= last);
  });
  const only = reached.length === 0 ? basisAt(bases, first) : reached[0]!;
  if (reached.length < 2) return evaluateReadings({ ...only, readings, nominal, judged, rows });
  const whole = makeEvaluationColumns(rows.to - rows.from);
  reached.forEach((basis, index) => {
    const start = index === 0 ? rows.from : Math.max(rows.from, firstNotBefore(time, basis.from));
    const next = reached[index + 1];
    const end = next === undefined ? rows.to : firstNotBefore(time, next.from);
    if (start >= end) return;
    const from = firstNotBefore(time, time[start]! - CHECK_REACH_MS);
    const to = firstNotBefore(time, time[end - 1]! + CHECK_REACH_MS + 1);
    const part = evaluateReadings({
      ...basis,
      ...{ readings: sliceReadings(readings, from, to), nominal, judged },
      rows: { from: start - from, to: end - from },
    });
    copyEvaluation(whole, part, { from: 0, to: end - start, at: start - rows.from });
  });
  return whole;
}

/**
 * First instant whose evaluation a change of the readings from an instant on can reach.
 *
 * @param bases    at least one, ascending by `from` [ms]
 * @param readings columns, those of CHECK_REACH_MS before the change among them
 * @param since    first instant at which a reading came, went or changed [ms]
 * @returns [ms], from CHECK_REACH_MS before `since` up to `since`
 * @range  RangeError without any basis
 * @source none: see `firstReached` of the screening
 * @check  tests/core/fouling/evaluate-over.test.ts
 */
export function evaluationReached(bases: readonly Basis[], readings: ReadingColumns, since: number): number {
  const farthest = since - CHECK_REACH_MS;
  const { exchanger, settings, cleanFactors, from } = basisAt(bases, since);
  if (basisAt(bases, farthest).from !== from) return farthest;
  return firstReached(unitModel(exchanger, settings, cleanFactors), readings, since);
}
