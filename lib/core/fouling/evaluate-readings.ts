import type { CheckSettings } from '../checks/check-settings';
import type { JudgedPeriod } from '../checks/judged-period';
import { nominalSensors } from '../checks/nominal-sensors';
import { REASON_BIT } from '../checks/reasons';
import { screenReadings } from '../checks/screen';
import { applyVerdict, verdictsOn } from '../checks/verdicts';
import { AS_ON_DATASHEET, type CleanFactors } from '../clean/clean-reference';
import type { Exchanger } from '../exchange/exchanger';
import type { ReadingColumns } from '../series/reading-columns';
import { BLOCK, evaluateBlock, makeBlock, type Work } from './evaluate-block';
import { blankInfinities, type EvaluationColumns, makeEvaluationColumns } from './evaluation-columns';
import { unitModel } from './unit-model';

/** Reasons that leave nothing to evaluate; with any other the figures are worked out all the same, to be shown. */
const NOTHING_LEFT =
  REASON_BIT.missing |
  REASON_BIT['not-a-number'] |
  REASON_BIT['out-of-range'] |
  REASON_BIT['outside-fluid-range'] |
  REASON_BIT['unit-off'];

export type EvaluationInput = {
  exchanger: Exchanger;
  settings: CheckSettings;
  readings: ReadingColumns;
  /** Learned factors on the clean resistances [-]; as on the datasheet where not given. */
  cleanFactors?: CleanFactors;
  /** Bits of the unit's nominal sensors over its whole record; worked out from `readings` where not given. */
  nominal?: number;
  /** What people said of readings; of two that overlap the later in the list holds. */
  judged?: readonly JudgedPeriod[];
};

/**
 * Evaluates periodic readings: screening, missing value inferred, balance closed, U, clean U at the same flows, fouling
 * resistance, lost duty and their uncertainties. A single reading is a column of length 1.
 *
 * @param input unit, thresholds and readings (columns of length n in time order, no duplicates)
 * @returns columns of length n; a value is NaN only where that reading's mask is not 0, and never Infinity
 * @range  any length; RangeError for an impossible datasheet
 * @source METHODS §3 to §7
 * @check  tests/core/fouling/evaluate-readings.test.ts, tests/properties/pipeline.test.ts
 */
export function evaluateReadings(input: EvaluationInput): EvaluationColumns {
  const { exchanger, settings, readings, cleanFactors = AS_ON_DATASHEET, judged = [] } = input;
  const model = unitModel(exchanger, settings, cleanFactors);
  const columns = makeEvaluationColumns(readings.time.length);
  columns.time.set(readings.time);
  const nominal = input.nominal ?? nominalSensors(readings);
  const { flows, unsteady } = screenReadings(model, readings, { reasons: columns.reasons, nominal });
  const work: Work = {
    screened: { model, readings, flows },
    unsteady,
    verdicts: verdictsOn(readings.time, judged),
    columns,
    block: makeBlock(readings, columns),
  };
  let count = 0;
  for (let i = 0; i < columns.time.length; i++) {
    if ((columns.reasons[i]! & NOTHING_LEFT) === 0) work.block[count++]!.rated.i = i;
    else columns.missing[i] = model.plan.missing[flows.measured[i]!]!;
    if (count === BLOCK) {
      evaluateBlock(work, count);
      count = 0;
    }
  }
  evaluateBlock(work, count);
  for (let i = 0; i < columns.time.length; i++) applyVerdict(columns, i, work.verdicts[i]!);
  blankInfinities(columns);
  return columns;
}
