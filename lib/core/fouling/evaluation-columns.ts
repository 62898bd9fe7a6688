import type { Sensor } from '../exchange/exchanger';
import { floatColumns } from '../series/float-columns';

/**
 * One evaluated reading per row, columns of equal length n, SI units. A value is NaN only where `reasons` is not 0 —
 * but a value that could be worked out in spite of a reason (a duty whose balance does not close) is kept, to be shown.
 */
export type EvaluationColumns = {
  /** [ms] */
  time: Float64Array;
  /** Bit mask of `checks/reasons`; 0 = accepted. */
  reasons: Uint32Array;
  /** Q = ṁ·Δh of each side [W]; NaN where a value of that side is inferred (then it equals the other side). */
  hotDuty: Float64Array;
  coldDuty: Float64Array;
  /** Reconciled duty [W]. */
  duty: Float64Array;
  /** (Qh − Qc)/mean [-]; NaN where a value is inferred or nominal and no balance can be checked. */
  balance: Float64Array;
  /** Logarithmic mean temperature difference of pure counter-current flow [K] and the arrangement's correction F [-]. */
  lmtd: Float64Array;
  correction: Float64Array;
  effectiveness: Float64Array;
  ntu: Float64Array;
  /** [W/K] */
  conductance: Float64Array;
  /** [W/(m²·K)] */
  overallU: Float64Array;
  /** Clean conductance at this reading's own flows and temperatures [W/(m²·K)]. */
  cleanU: Float64Array;
  /** 1/U − 1/Uc [m²·K/W], never clipped. */
  foulingResistance: Float64Array;
  /** U/Uc [-] */
  cleanliness: Float64Array;
  /** Duty of the clean unit at the same inlets and flows less the actual duty [W]. */
  lostDuty: Float64Array;
  /** Reconciled mass flows [kg/s]. */
  hotMassFlow: Float64Array;
  coldMassFlow: Float64Array;
  /** Combined standard uncertainties, and the part of u(Rf) that averaging does not shrink. */
  dutyUncertainty: Float64Array;
  overallUUncertainty: Float64Array;
  foulingResistanceUncertainty: Float64Array;
  foulingResistanceSystematic: Float64Array;
  /** Bit per sensor in the order of `SENSORS`: set where that quantity was inferred from the balance, not measured. */
  inferred: Uint8Array;
  /** Bit per sensor likewise: set where a flow without a reading stood in at the nominal value of the datasheet. */
  nominal: Uint8Array;
  /** Of a reading with values missing: bits of the sensors any one of which would do, or of those wanted together (`SensorPlan.missing`). */
  missing: Uint8Array;
};

/** The sensors of one reading's bits (inferred, nominal or missing), given the sensor order of `SENSORS`. */
export function sensorsOf<S extends Sensor>(bits: number, sensors: readonly S[]): S[] {
  return sensors.filter((_, index) => (bits & (1 << index)) !== 0);
}

/** Every column of `EvaluationColumns` that holds Float64 figures (all but time, reasons and the bits). */
export const EVALUATION_FLOAT_COLUMNS = [
  'hotDuty',
  'coldDuty',
  'duty',
  'balance',
  'lmtd',
  'correction',
  'effectiveness',
  'ntu',
  'conductance',
  'overallU',
  'cleanU',
  'foulingResistance',
  'cleanliness',
  'lostDuty',
  'hotMassFlow',
  'coldMassFlow',
  'dutyUncertainty',
  'overallUUncertainty',
  'foulingResistanceUncertainty',
  'foulingResistanceSystematic',
] as const;

/** Every column of `EvaluationColumns` that holds bits of sensors. */
export const EVALUATION_BIT_COLUMNS = ['inferred', 'nominal', 'missing'] as const;

/**
 * Columns of a length with every figure NaN and no reason set.
 *
 * @param length number of readings [-]
 * @returns columns of that length, in the units of `EvaluationColumns`
 * @range  0 and more
 * @source none: room only
 * @check  tests/core/fouling/evaluate-readings.test.ts
 */
export function makeEvaluationColumns(length: number): EvaluationColumns {
  return {
    time: new Float64Array(length),
    reasons: new Uint32Array(length),
    inferred: new Uint8Array(length),
    nominal: new Uint8Array(length),
    missing: new Uint8Array(length),
    ...floatColumns(EVALUATION_FLOAT_COLUMNS, length),
  };
}

/**
 * Rows of evaluated readings, without copying.
 *
 * @param columns evaluated readings, columns of length n, in the units of `EvaluationColumns`
 * @param from    first row [-]
 * @param to      row after the last [-]
 * @returns views of the same memory
 * @range  0 ≤ from ≤ to ≤ n
 * @source none: selection only
 * @check  tests/core/fouling/evaluation-columns.test.ts
 */
export function sliceEvaluation(columns: EvaluationColumns, from: number, to: number): EvaluationColumns {
  // A copy whose columns are replaced: an object that so many are added to one by one is slow to read from.
  const part = { ...columns };
  part.time = columns.time.subarray(from, to);
  part.reasons = columns.reasons.subarray(from, to);
  for (const name of EVALUATION_BIT_COLUMNS) part[name] = columns[name].subarray(from, to);
  for (const name of EVALUATION_FLOAT_COLUMNS) part[name] = columns[name].subarray(from, to);
  return part;
}

/**
 * Copies rows of evaluated readings into others.
 *
 * @param into   columns to write to, in the units of `EvaluationColumns`
 * @param source columns to read from, likewise
 * @param rows   rows `from` to `to` (excluded) of the source, written from row `at` on [-]
 * @returns nothing
 * @range  rows within both; RangeError otherwise
 * @source none: copy only
 * @check  tests/core/fouling/evaluation-columns.test.ts
 */
export function copyEvaluation(
  into: EvaluationColumns,
  source: EvaluationColumns,
  { from, to, at }: { from: number; to: number; at: number },
): void {
  for (const name of [...EVALUATION_FLOAT_COLUMNS, 'time', 'reasons', ...EVALUATION_BIT_COLUMNS] as const) {
    into[name].set(source[name].subarray(from, to), at);
  }
}

/**
 * Turns figures of left-out readings that are not finite into NaN: they may divide by nothing, a column may not say so.
 *
 * @param columns evaluated readings, their masks complete
 * @returns nothing
 * @range  any
 * @source house rule: a column never holds Infinity
 * @check  tests/properties/pipeline.test.ts
 */
export function blankInfinities(columns: EvaluationColumns): void {
  const { reasons } = columns;
  const rows = new Int32Array(reasons.length);
  let count = 0;
  for (let i = 0; i < reasons.length; i++) if (reasons[i] !== 0) rows[count++] = i;
  const leftOut = rows.subarray(0, count);
  for (const name of EVALUATION_FLOAT_COLUMNS) blankColumn(columns[name], leftOut);
}

function blankColumn(column: Float64Array, rows: Int32Array): void {
  for (let k = 0; k < rows.length; k++) {
    const i = rows[k]!;
    if (!Number.isFinite(column[i]!)) column[i] = Number.NaN;
  }
}
