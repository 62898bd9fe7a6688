import { type Conversion, conversionToSi, type Kind } from '@/lib/contract/ucum';
import type { Sensor } from '@/lib/core/exchange/exchanger';
import { COLD_FLOW_IS_VOLUME, HOT_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';

/** How a sensor's written values become SI: value · factor + offset, and the bit that says it is a volume flow. */
export type SensorUnit = Conversion & { basisBit: number };

const PRESSURE_DROP = { kinds: ['pressure'], words: 'pressure', examples: 'kPa, bar or [psi]' } as const;
const TEMPERATURE = { kinds: ['temperature'], words: 'temperature', examples: 'Cel, K or [degF]' } as const;
const FLOW = {
  kinds: ['massFlow', 'volumeFlow'],
  words: 'mass or volume flow',
  examples: 'kg/s, t/h, m3/h or [gal_us]/min',
} as const;

/** A unit is plain characters without blanks; the library prints a complaint of its own about anything else. */
const UNIT = /^[\x21-\x7e°²³·]{1,64}$/;

/** Reads a unit as written in a column head or a mapping; null when it does not measure what the sensor does. */
export function sensorUnit(sensor: Sensor, written: string): SensorUnit | null {
  for (const kind of measuredBy(sensor).kinds) {
    const conversion = conversionOf(written, kind);
    if (conversion !== null) return { ...conversion, basisBit: kind === 'volumeFlow' ? basisBit(sensor) : 0 };
  }
  return null;
}

/** Why a unit was not taken and which would be. */
export function unitFault(sensor: Sensor, written: string): string {
  const { words, examples } = measuredBy(sensor);
  return `"${written.slice(0, 40)}" is no unit of ${words}; use for example ${examples}`;
}

/** A unit of this sensor, for messages that show how to write one. */
export function exampleUnit(sensor: Sensor): string {
  return sensor.endsWith('Flow') ? 'kg/s' : sensor.endsWith('Drop') ? 'kPa' : 'Cel';
}

function measuredBy(sensor: Sensor) {
  if (sensor === 'hotFlow' || sensor === 'coldFlow') return FLOW;
  return sensor === 'hotPressureDrop' || sensor === 'coldPressureDrop' ? PRESSURE_DROP : TEMPERATURE;
}

function basisBit(sensor: Sensor): number {
  return sensor === 'hotFlow' ? HOT_FLOW_IS_VOLUME : COLD_FLOW_IS_VOLUME;
}

/** Column heads may have lost a unit's own brackets, `hot_dp[psi]` for `hot_dp[[psi]]`: both are tried. */
function conversionOf(written: string, kind: Kind): Conversion | null {
  const unit = written.replace(/[µμ]/g, 'u').replace(/ /g, '');
  // The alias table is a plain object, in which "constructor" is found too.
  if (!UNIT.test(unit) || unit in Object.prototype) return null;
  const conversion = conversionToSi(unit, kind) ?? conversionToSi(`[${unit}]`, kind);
  // UCUM lets `10*400.kg/s` pass as a unit.
  return conversion !== null && conversion.factor > 0 && Number.isFinite(conversion.factor)
    ? conversion
    : null;
}
