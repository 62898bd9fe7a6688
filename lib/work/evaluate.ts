import { AppError } from '@/lib/contract/app-error';
import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { faultsOf } from '@/lib/contract/faults';
import type { Unit } from '@/lib/contract/fleet-file';
import { type EvaluatedReading, evaluateRequestSchema } from '@/lib/contract/readings';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { evaluatedReadings } from '@/lib/report/evaluated-readings';
import { cleanTestFaults, statedFactors } from './clean-test';
import { thresholdFaults } from './datasheet-faults';
import { readingColumns } from './reading-columns';

/**
 * Evaluates readings against a unit without a database: one evaluated reading each, in the order given.
 *
 * @throws AppError 'invalid-input' naming each field that cannot be
 */
export function evaluate(document: unknown): EvaluatedReading[] {
  const parsed = evaluateRequestSchema.safeParse(document);
  if (!parsed.success)
    throw new AppError('invalid-input', 'The request is not valid', faultsOf(parsed.error));
  const { unit, readings } = parsed.data;
  const exchanger = exchangerOf(unit);
  const instants = readings.map(({ time }) => Date.parse(time));
  // The core wants time order; the answer keeps the caller's.
  const order = readings.map((_, index) => index).sort((a, b) => instants[a]! - instants[b]!);
  const evaluation = evaluateReadings({
    exchanger,
    settings: toCheckSettings(unit),
    readings: readingColumns(order.map((index) => readings[index]!)),
    cleanFactors: statedFactors(unit),
  });
  // A learned reference hangs on the unit's record, which is not here.
  const sorted = evaluatedReadings(evaluation, unit.clean === 'test' ? 'test' : 'datasheet');
  const answers = new Array<EvaluatedReading>(readings.length);
  order.forEach((index, position) => {
    answers[index] = { ...sorted[position]!, time: readings[index]!.time };
  });
  return answers;
}

/** The unit in SI; what its datasheet cannot be is named as a part of the request. */
function exchangerOf(unit: Unit): Exchanger {
  try {
    const exchanger = toExchanger(unit);
    const faults = [...thresholdFaults(unit), ...cleanTestFaults(unit)];
    if (faults.length === 0) return exchanger;
    throw new AppError('invalid-input', `${unit.tag}: the datasheet cannot be used`, faults);
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    const faults = error.faults.map((fault) => ({ ...fault, field: `unit.${fault.field}` }));
    throw new AppError(error.code, error.message, faults);
  }
}
