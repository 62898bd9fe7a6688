import type { Sensor } from '../exchange/exchanger';

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
  const columns = {
    time: new Float64Array(length),
    reasons: new Uint32Array(length),
  } as EvaluationColumns;
  for (const name of EVALUATION_BIT_COLUMNS) columns[name] = new Uint8Array(length);
  for (const name of EVALUATION_FLOAT_COLUMNS) columns[name] = new Float64Array(length).fill(Number.NaN);
  return columns;
}

/**
 * Turns figures of one row that are not finite into NaN: a left-out reading may divide by nothing, a column may not say so.
 *
 * @param columns evaluated readings
 * @param i       row whose mask is not 0 [-]
 * @returns nothing
 * @range  any
 * @source house rule: a column never holds Infinity
 * @check  tests/properties/pipeline.test.ts
 */
export function blankInfinities(columns: EvaluationColumns, i: number): void {
  for (const name of EVALUATION_FLOAT_COLUMNS) {
    if (!Number.isFinite(columns[name][i]!)) columns[name][i] = Number.NaN;
  }
}
