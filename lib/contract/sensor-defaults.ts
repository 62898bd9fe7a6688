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
/** Standard uncertainty of a typed-in flow, and the share of its variance that every reading has alike: all of it (own choice). */
const NOMINAL_FLOW_UNCERTAINTY = 0.1;
const NOMINAL_SYSTEMATIC_SHARE = 1;
/** Share of a sensor's variance that is calibration and position, the same in every reading. */
const SYSTEMATIC_SHARE = 0.5;

/**
 * Uncertainty of every sensor of a unit, defaults filled in. `densities` turn a stated volume-flow figure into mass. A flow
 * with a nominal value and no stated uncertainty has that of a typed-in flow.
 */
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
  const given = stated?.uncertainty;
  if (given === undefined) return { ...defaultUncertainty(unit, sensor), ...shareOf(stated) };
  const { systematicShare } = { systematicShare: SYSTEMATIC_SHARE, ...shareOf(stated) };
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

/** The share as stated, nothing where it is not: to be spread over a default. */
function shareOf(stated: { systematicShare?: number | undefined } | undefined) {
  return stated?.systematicShare === undefined ? {} : { systematicShare: stated.systematicShare };
}

function defaultUncertainty(unit: Unit, sensor: Sensor): SensorUncertainty {
  const systematicShare = SYSTEMATIC_SHARE;
  if (isOneOf(TEMPERATURE_SENSORS, sensor))
    return { absolute: TEMPERATURE_UNCERTAINTY, relative: 0, systematicShare };
  if (!isOneOf(FLOW_SENSORS, sensor))
    return { absolute: 0, relative: PRESSURE_DROP_UNCERTAINTY, systematicShare };
  if (unit.sensors?.[sensor]?.nominal === undefined)
    return { absolute: 0, relative: FLOW_UNCERTAINTY, systematicShare };
  return { absolute: 0, relative: NOMINAL_FLOW_UNCERTAINTY, systematicShare: NOMINAL_SYSTEMATIC_SHARE };
}

function isOneOf<T extends string>(list: readonly T[], value: string): value is T {
  return (list as readonly string[]).includes(value);
}
