import { floatColumns } from './float-columns';

/**
 * Figures of one local day per row, equal lengths, ascending by day; days on which no reading arrived have no row.
 * A day's figure is the median over its accepted readings; NaN on days with none (then `worstReason` says why).
 */
export type DailyColumns = {
  /** Local day of the site, as days since 1970-01-01. */
  day: Int32Array;
  /** Readings of the day, those accepted, and those while the unit stood still. */
  readings: Int32Array;
  accepted: Int32Array;
  off: Int32Array;
  /** Index into REASONS of the reason that left out most readings of the day, −1 where all were accepted. */
  worstReason: Int8Array;
  /** Instants of the first and last accepted reading behind the figure [ms]; NaN where none. */
  firstAccepted: Float64Array;
  lastAccepted: Float64Array;
  /** [W] */
  duty: Float64Array;
  /** [W/(m²·K)] */
  overallU: Float64Array;
  cleanU: Float64Array;
  /** [m²·K/W] */
  foulingResistance: Float64Array;
  /** Combined standard uncertainty of the daily Rf, its systematic part, and the scatter of its readings. */
  foulingResistanceUncertainty: Float64Array;
  foulingResistanceSystematic: Float64Array;
  foulingResistanceScatter: Float64Array;
  /** [W] */
  lostDuty: Float64Array;
  /** Medians of the conditions behind the figure: temperatures [°C], mass flows [kg/s]. */
  hotIn: Float64Array;
  hotOut: Float64Array;
  coldIn: Float64Array;
  coldOut: Float64Array;
  hotMassFlow: Float64Array;
  coldMassFlow: Float64Array;
  /** Pressure drops scaled to the design flow [Pa]; NaN where not measured. */
  hotPressureDrop: Float64Array;
  coldPressureDrop: Float64Array;
  /** Median of (Qh − Qc)/mean over readings that nothing but their balance speaks against [-]; NaN without any. */
  balance: Float64Array;
};

/** Every column of `DailyColumns` that holds Float64. */
export const DAILY_FLOAT_COLUMNS = [
  'firstAccepted',
  'lastAccepted',
  'duty',
  'overallU',
  'cleanU',
  'foulingResistance',
  'foulingResistanceUncertainty',
  'foulingResistanceSystematic',
  'foulingResistanceScatter',
  'lostDuty',
  'hotIn',
  'hotOut',
  'coldIn',
  'coldOut',
  'hotMassFlow',
  'coldMassFlow',
  'hotPressureDrop',
  'coldPressureDrop',
  'balance',
] as const;

/** Empty daily columns of a length. */
export function makeDailyColumns(length: number): DailyColumns {
  return {
    day: new Int32Array(length),
    readings: new Int32Array(length),
    accepted: new Int32Array(length),
    off: new Int32Array(length),
    worstReason: new Int8Array(length).fill(-1),
    ...floatColumns(DAILY_FLOAT_COLUMNS, length),
  };
}
