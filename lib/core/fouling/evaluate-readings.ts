import type { CheckSettings } from '../checks/check-settings';
import type { JudgedPeriod } from '../checks/judged-period';
import { nominalSensors } from '../checks/nominal-sensors';
import { REASON_BIT } from '../checks/reasons';
import { screenReadings } from '../checks/screen';
import type { MassFlows } from '../checks/screen-values';
import { applyVerdict, verdictsOn } from '../checks/verdicts';
import { AS_ON_DATASHEET, type CleanFactors } from '../clean/clean-reference';
import type { Exchanger } from '../exchange/exchanger';
import { type ReadingColumns, sliceReadings } from '../series/reading-columns';
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
  /** Rows to evaluate, `from` included, `to` excluded; the others only serve their screening. All where not given. */
  rows?: Rows;
};

/** Rows of columns: `from` included, `to` excluded. */
export type Rows = { from: number; to: number };

/**
 * Evaluates periodic readings: screening, missing value inferred, balance closed, U, clean U at the same flows, fouling
 * resistance, lost duty and their uncertainties. A single reading is a column of length 1.
 *
 * @param input unit, thresholds and readings (columns of length n in time order, no duplicates)
 * @returns columns of the rows to evaluate; a value is NaN only where that reading's mask is not 0, and never Infinity
 * @range  any length; RangeError for an impossible datasheet
 * @source METHODS §3 to §7
 * @check  tests/core/fouling/evaluate-readings.test.ts, tests/properties/pipeline.test.ts
 */
export function evaluateReadings(input: EvaluationInput): EvaluationColumns {
  const { exchanger, settings, readings: all, cleanFactors = AS_ON_DATASHEET, judged = [] } = input;
  const { from, to } = input.rows ?? { from: 0, to: all.time.length };
  const model = unitModel(exchanger, settings, cleanFactors);
  const nominal = input.nominal ?? nominalSensors(all);
  const reasons = new Uint32Array(all.time.length);
  const { flows, unsteady } = screenReadings(model, all, { reasons, nominal });
  const readings = sliceReadings(all, from, to);
  const columns = makeEvaluationColumns(to - from);
  columns.time.set(readings.time);
  columns.reasons.set(reasons.subarray(from, to));
  evaluateScreened({
    screened: { model, readings, flows: sliceFlows(flows, from, to) },
    unsteady: unsteady.subarray(from, to),
    verdicts: verdictsOn(readings.time, judged),
    columns,
    block: makeBlock(readings, columns),
  });
  return columns;
}

/** Works out the figures of screened readings, a block at a time. */
function evaluateScreened(work: Work): void {
  const { columns, screened } = work;
  const { model, flows } = screened;
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
}

function sliceFlows({ hot, cold, measured }: MassFlows, from: number, to: number): MassFlows {
  return {
    hot: hot.subarray(from, to),
    cold: cold.subarray(from, to),
    measured: measured.subarray(from, to),
  };
}
