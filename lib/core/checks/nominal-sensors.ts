import { FLOW_SENSORS, TEMPERATURE_SENSORS } from '../exchange/exchanger';
import type { ReadingColumns } from '../series/reading-columns';

const WEEK_MS = 7 * 86_400_000;

/**
 * Sensors that hold a nominal value somebody typed in rather than a measurement: over the whole record they change less
 * than once a week on average. A standstill of such a column is no sign of a frozen sensor.
 *
 * @param readings the whole record of a unit, not part of it: a frozen sensor looks nominal in a short excerpt
 * @returns bits in the order of `BALANCE_SENSORS` (temperatures, then flows) [-]
 * @range  any length
 * @source common practice
 * @check  tests/core/checks/frozen-sensors.test.ts
 */
export function nominalSensors(readings: ReadingColumns): number {
  let bits = 0;
  [...TEMPERATURE_SENSORS, ...FLOW_SENSORS].forEach((sensor, place) => {
    if (isNominal(readings[sensor], readings.time)) bits |= 1 << place;
  });
  return bits;
}

function isNominal(values: Float64Array, time: Float64Array): boolean {
  let changes = 0;
  let last = Number.NaN;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (Number.isNaN(value)) continue;
    if (value !== last && !Number.isNaN(last)) changes++;
    last = value;
  }
  if (changes === 0) return true;
  return changes * WEEK_MS < time[time.length - 1]! - time[0]!;
}
