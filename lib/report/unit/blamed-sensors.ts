import { REASON_BIT, type Reason } from '@/lib/core/checks/reasons';
import { FLOW_SENSORS, type Sensor, TEMPERATURE_SENSORS } from '@/lib/core/exchange/exchanger';
import type { EvaluationColumns } from '@/lib/core/fouling/evaluation-columns';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';

/** Only the newest readings are looked at: what ails the unit now [readings] (two days of hourly data). */
const LOOK_BACK = 48;
/** A sensor is named when most of those readings show it [-] (own choice). */
const NAMED_SHARE = 0.5;

/**
 * Which sensors stand behind a reason, where the readings can tell: those without a value, or those that do not move.
 * Empty for reasons that no reading can pin on one sensor (a balance that does not close).
 */
export function blamedSensors(
  readings: ReadingColumns,
  evaluation: EvaluationColumns,
  reason: Reason,
): Sensor[] {
  const rows: number[] = [];
  for (let i = evaluation.time.length - 1; i >= 0 && rows.length < LOOK_BACK; i--) {
    if ((evaluation.reasons[i]! & REASON_BIT[reason]) !== 0) rows.push(i);
  }
  if (rows.length === 0) return [];
  const candidates = [...TEMPERATURE_SENSORS, ...FLOW_SENSORS];
  if (reason === 'missing') return candidates.filter((sensor) => isMostlyMissing(readings[sensor], rows));
  if (reason === 'frozen-sensor') return candidates.filter((sensor) => isStill(readings[sensor], rows));
  return [];
}

function isMostlyMissing(values: Float64Array, rows: number[]): boolean {
  // A sensor that never gave a value in this record is not installed.
  if (values.every((value) => Number.isNaN(value))) return false;
  const absent = rows.filter((row) => Number.isNaN(values[row]!)).length;
  return absent > rows.length * NAMED_SHARE;
}

function isStill(values: Float64Array, rows: number[]): boolean {
  // A column that never moved at all is a nominal value somebody typed in, not a sensor that froze.
  if (values.every((value) => value === values[0])) return false;
  const still = rows.filter((row) => row > 0 && values[row] === values[row - 1]).length;
  return rows.length > 1 && still >= (rows.length - 1) * NAMED_SHARE;
}
