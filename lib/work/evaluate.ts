import { AppError } from '@/lib/contract/app-error';
import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { faultsOf } from '@/lib/contract/faults';
import { inSi } from '@/lib/contract/quantity';
import { type EvaluatedReading, evaluateRequestSchema, type Reading } from '@/lib/contract/readings';
import { conversionToSi } from '@/lib/contract/ucum';
import { FLOW_SENSORS, PRESSURE_DROP_SENSORS, TEMPERATURE_SENSORS } from '@/lib/core/exchange/exchanger';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import {
  COLD_FLOW_IS_VOLUME,
  HOT_FLOW_IS_VOLUME,
  makeReadingColumns,
  type ReadingColumns,
} from '@/lib/core/series/reading-columns';
import { evaluatedReadings } from '@/lib/report/evaluated-readings';

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
  // The core wants time order; the answer keeps the caller's.
  const order = readings
    .map((_, index) => index)
    .sort((a, b) => instant(readings[a]!) - instant(readings[b]!));
  const exchanger = toExchanger(unit);
  const settings = toCheckSettings(unit);
  const sorted = evaluatedReadings(
    evaluateReadings({
      exchanger,
      settings,
      readings: columnsOf(order.map((index) => readings[index]!)),
      cleanScale: 1,
    }),
  );
  const answers = new Array<EvaluatedReading>(readings.length);
  order.forEach((index, position) => {
    answers[index] = { ...sorted[position]!, time: readings[index]!.time };
  });
  return answers;
}

function instant(reading: Reading): number {
  return Date.parse(reading.time);
}

function columnsOf(readings: Reading[]): ReadingColumns {
  const columns = makeReadingColumns(readings.length);
  readings.forEach((reading, i) => {
    columns.time[i] = instant(reading);
    for (const sensor of TEMPERATURE_SENSORS) {
      const given = reading[sensor];
      if (given) columns[sensor][i] = inSi(given, 'temperature');
    }
    for (const sensor of PRESSURE_DROP_SENSORS) {
      const given = reading[sensor];
      if (given) columns[sensor][i] = inSi(given, 'pressure');
    }
    for (const sensor of FLOW_SENSORS) {
      const given = reading[sensor];
      if (!given) continue;
      const isVolume = conversionToSi(given.unit, 'volumeFlow') !== null;
      columns[sensor][i] = inSi(given, isVolume ? 'volumeFlow' : 'massFlow');
      if (isVolume) columns.flowBasis[i]! |= sensor === 'hotFlow' ? HOT_FLOW_IS_VOLUME : COLD_FLOW_IS_VOLUME;
    }
  });
  return columns;
}
