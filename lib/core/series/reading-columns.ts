import { SENSORS, type Sensor } from '../exchange/exchanger';
import { floatColumns } from './float-columns';

/** Bits of `ReadingColumns.flowBasis`: set where that flow is a volume flow [m³/s], clear where it is a mass flow [kg/s]. */
export const HOT_FLOW_IS_VOLUME = 1;
export const COLD_FLOW_IS_VOLUME = 2;

/**
 * Periodic readings of one unit as columns of equal length, in time order without duplicates.
 * Temperatures [°C], flows [kg/s] or [m³/s] by `flowBasis`, pressure drops [Pa]; NaN = not measured at that instant.
 */
export type ReadingColumns = Record<Sensor, Float64Array> & {
  /** Instants [ms since 1970-01-01T00:00Z], ascending, no duplicates. */
  time: Float64Array;
  flowBasis: Uint8Array;
};

/** Empty columns for `length` readings, every sensor "not measured". */
export function makeReadingColumns(length: number): ReadingColumns {
  return {
    time: new Float64Array(length),
    flowBasis: new Uint8Array(length),
    ...floatColumns(SENSORS, length),
  };
}

/**
 * Rows of readings, without copying.
 *
 * @param readings columns of length n
 * @param from     first row [-]
 * @param to       row after the last [-]
 * @returns views of the same memory
 * @range  0 ≤ from ≤ to ≤ n
 * @source none: selection only
 * @check  tests/core/fouling/evaluate-over.test.ts
 */
export function sliceReadings(readings: ReadingColumns, from: number, to: number): ReadingColumns {
  // A copy whose columns are replaced: an object that so many are added to one by one is slow to read from.
  const part = { ...readings };
  part.time = readings.time.subarray(from, to);
  part.flowBasis = readings.flowBasis.subarray(from, to);
  for (const sensor of SENSORS) part[sensor] = readings[sensor].subarray(from, to);
  return part;
}
