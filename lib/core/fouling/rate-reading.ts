import type { CheckSettings } from '../checks/check-settings';
import { screenValues } from '../checks/screen-values';
import type { CleanFactors } from '../clean/clean-reference';
import type { Exchanger } from '../exchange/exchanger';
import { balanceBuffers } from '../exchange/reconcile';
import type { ReadingColumns } from '../series/reading-columns';
import { closeBalance } from './close-balance';
import { completeState } from './complete-state';
import { compareWithClean, makeRating, rateState } from './conductance-figures';
import { makeEvaluationColumns } from './evaluation-columns';
import { makeSensitivities, type Rated, writeSensitivities } from './sensitivities';
import { PLACE, type UnitModel, unitModel } from './unit-model';

/** A unit and what it is judged by. */
export type Judged = { exchanger: Exchanger; settings: CheckSettings; cleanFactors: CleanFactors };

/** One reading worked out with everything its uncertainties follow from. */
export type RatedReading = { model: UnitModel; rated: Rated };

/**
 * Works out one reading as `evaluateReadings` does, but keeps the state and the sensitivities.
 *
 * @param judged  the unit
 * @param reading columns of length 1
 * @returns the rated reading, its sensitivities written; null where it has no U or no clean U
 * @range  a reading that was accepted
 * @source METHODS §3 to §6
 * @check  tests/core/fouling/uncertainty-budget.test.ts
 */
export function rateReading(
  { exchanger, settings, cleanFactors }: Judged,
  reading: ReadingColumns,
): RatedReading | null {
  const model = unitModel(exchanger, settings, cleanFactors);
  const columns = makeEvaluationColumns(1);
  const buffers = balanceBuffers();
  const rating = makeRating();
  const flows = screenValues(model, reading, columns.reasons);
  const inferred = completeState({ model, readings: reading, flows }, 0, buffers);
  if (!closeBalance(model, buffers, inferred)) return null;
  const state = buffers.reconciled;
  columns.duty[0] = state[PLACE.hotFlow]! * buffers.gradient[PLACE.hotFlow]!;
  rateState(model, state, { columns, i: 0, rating });
  if (!(columns.overallU[0]! > 0)) return null;
  compareWithClean(model, state, { columns, i: 0, rating });
  if (!(columns.cleanU[0]! > 0)) return null;
  const sensitivities = makeSensitivities();
  const rated = { readings: reading, columns, i: 0, buffers, rating, inferred, sensitivities };
  writeSensitivities(model, rated);
  return { model, rated };
}
