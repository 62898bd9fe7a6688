import { SENSORS, type Sensor } from '../exchange/exchanger';

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
  const columns = { time: new Float64Array(length), flowBasis: new Uint8Array(length) } as ReadingColumns;
  for (const sensor of SENSORS) columns[sensor] = new Float64Array(length).fill(Number.NaN);
  return columns;
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
  const part = {
    time: readings.time.subarray(from, to),
    flowBasis: readings.flowBasis.subarray(from, to),
  } as ReadingColumns;
  for (const sensor of SENSORS) part[sensor] = readings[sensor].subarray(from, to);
  return part;
}
