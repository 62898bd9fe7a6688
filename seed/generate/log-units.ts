import type { Unit } from '@/lib/contract/fleet-file';
import { type Conversion, conversionToSi } from '@/lib/contract/ucum';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';

/** Last digit of a logged temperature, in degrees of its own scale. */
const TEMPERATURE_STEP: LogStep = { lead: 1, decimals: 1 };
/** A logged flow keeps about this share of the design figure, rounded to 1, 2 or 5. */
const RELATIVE_STEP = 0.0005;
const PRESSURE_DROP_STEPS = { '[psi]': { lead: 1, decimals: 2 }, kPa: { lead: 1, decimals: 1 } } as const;

/** Last digit kept: 1, 2 or 5 (`lead`) of the decimal place 10^−`decimals`. */
export type LogStep = { lead: number; decimals: number };

/** How a sensor is logged: its unit of measure, the way to SI, and the last digit kept (in that unit). */
export type LoggedUnit = { unit: string; conversion: Conversion; step: LogStep; isVolume: boolean };

/** How each sensor of a unit is logged: in the units of measure of its datasheet. */
export function loggedUnits(unit: Unit): Record<Sensor, LoggedUnit> {
  return Object.fromEntries(SENSORS.map((sensor) => [sensor, loggedUnit(unit, sensor)])) as Record<
    Sensor,
    LoggedUnit
  >;
}

function loggedUnit(unit: Unit, sensor: Sensor): LoggedUnit {
  if (sensor === 'hotPressureDrop' || sensor === 'coldPressureDrop') {
    const code = unit.design.hotIn.unit === '[degF]' ? '[psi]' : 'kPa';
    const conversion = conversionToSi(code, 'pressure')!;
    return { unit: code, conversion, step: PRESSURE_DROP_STEPS[code], isVolume: false };
  }
  const code = unit.design[sensor].unit;
  if (sensor !== 'hotFlow' && sensor !== 'coldFlow') {
    return {
      unit: code,
      conversion: conversionToSi(code, 'temperature')!,
      step: TEMPERATURE_STEP,
      isVolume: false,
    };
  }
  const volume = conversionToSi(code, 'volumeFlow');
  const conversion = volume ?? conversionToSi(code, 'massFlow')!;
  const step = roundStep(unit.design[sensor].value * RELATIVE_STEP);
  return { unit: code, conversion, step, isVolume: volume !== null };
}

/** The next lower of 1, 2, 5 times a power of ten. */
function roundStep(value: number): LogStep {
  const exponent = Math.floor(Math.log10(value));
  const mantissa = value / 10 ** exponent;
  return { lead: mantissa >= 5 ? 5 : mantissa >= 2 ? 2 : 1, decimals: -exponent };
}

/** A figure as logged: the nearest multiple of the step, exact in decimal. */
export function roundToStep(value: number, { lead, decimals }: LogStep): number {
  const scale = 10 ** Math.abs(decimals);
  return decimals >= 0
    ? (Math.round((value * scale) / lead) * lead) / scale
    : Math.round(value / (scale * lead)) * lead * scale;
}
