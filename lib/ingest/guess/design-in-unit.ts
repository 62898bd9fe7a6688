import type { FlowSensor, Sensor, TemperatureSensor } from '@/lib/core/exchange/exchanger';
import { sensorUnit } from '../sensor-unit';
import type { UnitTargets } from './unit-targets';

/** The design figure of a sensor in some unit of measure; null where there is none. */
export function designInUnit(unit: string, sensor: Sensor, targets: UnitTargets): number | null {
  const conversion = sensorUnit(sensor, unit);
  if (conversion === null || sensor.endsWith('Drop')) return null;
  const { factor, offset, basisBit } = conversion;
  const design = sensor.endsWith('Flow')
    ? targets.flows[sensor as FlowSensor][basisBit === 0 ? 'mass' : 'volume']
    : targets.temperatures[sensor as TemperatureSensor];
  return design === null ? null : (design - offset) / factor;
}
