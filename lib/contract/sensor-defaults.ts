import {
  FLOW_SENSORS,
  SENSORS,
  type Sensor,
  type SensorUncertainty,
  TEMPERATURE_SENSORS,
} from '@/lib/core/exchange/exchanger';
import type { Unit } from './fleet-file';
import { inSi } from './quantity';
import { conversionToSi } from './ucum';

/** Standard uncertainties where none are stated (common practice for installed industrial sensors). */
const TEMPERATURE_UNCERTAINTY = 0.2;
const FLOW_UNCERTAINTY = 0.02;
const PRESSURE_DROP_UNCERTAINTY = 0.02;
/** Share of a sensor's variance that is calibration and position, the same in every reading. */
const SYSTEMATIC_SHARE = 0.5;

/** Uncertainty of every sensor of a unit, defaults filled in. `densities` turn a stated volume-flow figure into mass. */
export function sensorUncertainties(
  unit: Unit,
  densities: { hotFlow: number | null; coldFlow: number | null },
): Record<Sensor, SensorUncertainty> {
  return Object.fromEntries(
    SENSORS.map((sensor) => [sensor, uncertaintyOf(unit, sensor, densities)]),
  ) as Record<Sensor, SensorUncertainty>;
}

function uncertaintyOf(
  unit: Unit,
  sensor: Sensor,
  densities: { hotFlow: number | null; coldFlow: number | null },
): SensorUncertainty {
  const stated = unit.sensors?.[sensor];
  const systematicShare = stated?.systematicShare ?? SYSTEMATIC_SHARE;
  const given = stated?.uncertainty;
  if (given === undefined) return { ...defaultUncertainty(sensor), systematicShare };
  if (typeof given === 'number') return { absolute: 0, relative: given, systematicShare };
  if (isOneOf(TEMPERATURE_SENSORS, sensor)) {
    return { absolute: inSi(given, 'temperatureDifference'), relative: 0, systematicShare };
  }
  if (!isOneOf(FLOW_SENSORS, sensor))
    return { absolute: inSi(given, 'pressure'), relative: 0, systematicShare };
  const isVolume = conversionToSi(given.unit, 'volumeFlow') !== null;
  const mass = isVolume ? inSi(given, 'volumeFlow') * (densities[sensor] ?? 0) : inSi(given, 'massFlow');
  return { absolute: mass, relative: 0, systematicShare };
}

function defaultUncertainty(sensor: Sensor): { absolute: number; relative: number } {
  if (isOneOf(TEMPERATURE_SENSORS, sensor)) return { absolute: TEMPERATURE_UNCERTAINTY, relative: 0 };
  return {
    absolute: 0,
    relative: isOneOf(FLOW_SENSORS, sensor) ? FLOW_UNCERTAINTY : PRESSURE_DROP_UNCERTAINTY,
  };
}

function isOneOf<T extends string>(list: readonly T[], value: string): value is T {
  return (list as readonly string[]).includes(value);
}
