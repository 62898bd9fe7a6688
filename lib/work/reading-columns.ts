import { inSi } from '@/lib/contract/quantity';
import type { Reading } from '@/lib/contract/readings';
import { conversionToSi } from '@/lib/contract/ucum';
import { FLOW_SENSORS, PRESSURE_DROP_SENSORS, TEMPERATURE_SENSORS } from '@/lib/core/exchange/exchanger';
import {
  COLD_FLOW_IS_VOLUME,
  HOT_FLOW_IS_VOLUME,
  makeReadingColumns,
  type ReadingColumns,
} from '@/lib/core/series/reading-columns';

/** Readings of the contract, in time order, as columns in SI. */
export function readingColumns(readings: readonly Reading[]): ReadingColumns {
  const columns = makeReadingColumns(readings.length);
  readings.forEach((reading, i) => {
    columns.time[i] = Date.parse(reading.time);
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
