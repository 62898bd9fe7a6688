import type { CheckSettings } from '../checks/check-settings';
import { type Reason, reasonsOf } from '../checks/reasons';
import type { Exchanger } from '../exchange/exchanger';
import { evaluateReadings } from '../fouling/evaluate-readings';
import type { ReadingColumns } from '../series/reading-columns';

/** What one test of the clean unit teaches: a factor on the clean resistance with its uncertainty, or why it cannot. */
export type CleanTest =
  | { scale: number; uncertainty: number; reasons: [] }
  | { scale: null; reasons: Reason[] };

/**
 * The clean reference from one test of the clean unit: Uc/U at the test's own flows and temperatures is one factor on the
 * datasheet's clean resistance.
 *
 * @param exchanger the unit
 * @param settings  thresholds of its screening
 * @param reading   the test, columns of length 1; a value that follows from the balance may be missing
 * @returns factor [-] and its standard uncertainty from the sensors', or the reasons that leave the test out
 * @range  RangeError for any other length
 * @source METHODS §5
 * @check  tests/core/clean/clean-test.test.ts
 */
export function cleanTestScale(
  exchanger: Exchanger,
  settings: CheckSettings,
  reading: ReadingColumns,
): CleanTest {
  if (reading.time.length !== 1) throw new RangeError('a clean test is one reading');
  // One reading stands still for no time: no sensor of it can be told to be typed in or frozen.
  const evaluated = evaluateReadings({ exchanger, settings, readings: reading, nominal: 0 });
  const reasons = reasonsOf(evaluated.reasons[0]!);
  if (reasons.length > 0) return { scale: null, reasons };
  const scale = 1 / evaluated.cleanliness[0]!;
  const relative = evaluated.overallUUncertainty[0]! / evaluated.overallU[0]!;
  return { scale, uncertainty: scale * relative, reasons: [] };
}
