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
