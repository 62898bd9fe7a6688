import { conversionToSi, type Kind } from '@/lib/contract/ucum';
import { FLOW_SENSORS, PRESSURE_DROP_SENSORS, SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import {
  COLD_FLOW_IS_VOLUME,
  HOT_FLOW_IS_VOLUME,
  type ReadingColumns,
} from '@/lib/core/series/reading-columns';
import { displayUnit } from '@/lib/report/format/display-unit';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { QuantityDraft } from '@/lib/report/setup/quantity-draft';
import type { SpotCheckEntries } from './spot-check-entries';

/** Digits of a logged value in a form field: no plant instrument has more. */
const DIGITS = 6;

/** The entries with the values of a reading put in, each in the unit of measure asked for, or one that measures the same. */
export function entriesOfReading(
  reading: ReadingColumns,
  entries: SpotCheckEntries,
  system: UnitSystem,
): SpotCheckEntries {
  const values = SENSORS.map((sensor) => {
    const kind = kindOf(sensor, reading.flowBasis[0]!);
    return [sensor, written(reading[sensor][0]!, { kind, unit: entries[sensor].unit, system })];
  });
  return { ...entries, ...Object.fromEntries(values) };
}

function written(
  value: number,
  {
    kind,
    unit,
    system,
  }: { kind: Kind & Parameters<typeof displayUnit>[0]; unit: string; system: UnitSystem },
): QuantityDraft {
  const usual = conversionToSi(unit, kind) === null ? displayUnit(kind, system).ucum : unit;
  const { factor, offset } = conversionToSi(usual, kind)!;
  const size = Number(((value - offset) / factor).toPrecision(DIGITS));
  return { value: Number.isFinite(size) ? `${size}` : '', unit: usual };
}

function kindOf(sensor: Sensor, basis: number) {
  if (PRESSURE_DROP_SENSORS.some((other) => other === sensor)) return 'pressure';
  if (!FLOW_SENSORS.some((other) => other === sensor)) return 'temperature';
  const bit = sensor === 'hotFlow' ? HOT_FLOW_IS_VOLUME : COLD_FLOW_IS_VOLUME;
  return (basis & bit) === 0 ? 'massFlow' : 'volumeFlow';
}
