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
/** An annotation with something behind it, `{a}b`: the library fails on it. */
const UNREADABLE = /\}[^/.)]/;
/** The library's tables are plain objects, in which "constructor" is found too. */
const OBJECT_NAMES = Object.getOwnPropertyNames(Object.prototype);
/** Signs that stand for another: Greek mu, ordinal and ring for the degree, its two letters in one. */
const SAME_SIGNS: [RegExp, string][] = [
  [/[µμ]/g, 'u'],
  [/[º˚]/g, '°'],
  [/℃/g, '°C'],
  [/℉/g, '°F'],
  [/⋅/g, '·'],
];

/** Reads a unit as written in a column head or a mapping; null when it does not measure what the sensor does. */
export function sensorUnit(sensor: Sensor, written: string): SensorUnit | null {
  // UCUM would read nm3/h as cubic nanometres.
  if (refusalOf(written) !== null) return null;
  for (const kind of measuredBy(sensor).kinds) {
    const conversion = conversionOf(written, kind);
    if (conversion !== null) return { ...conversion, basisBit: kind === 'volumeFlow' ? basisBit(sensor) : 0 };
  }
  return null;
}

/** Whether a text is a unit of anything that a sensor of an exchanger measures. */
export function isSensorUnit(written: string): boolean {
  return (['hotIn', 'hotFlow', 'hotPressureDrop'] as const).some(
    (sensor) => sensorUnit(sensor, written) !== null,
  );
}

/** `(°C)` and `[°C]` as stand in a cell of their own; UCUM's own brackets, `[degF]`, stay. */
export function unitWithoutBrackets(written: string): string {
  const cell = written.trim();
  if (isBracketedUnit(cell)) return cell;
  return (
    /^\[(.*)\]$|^\((.*)\)$/
      .exec(cell)
      ?.slice(1)
      .find((inner) => inner !== undefined) ?? cell
  );
}

function isBracketedUnit(cell: string): boolean {
  return cell.startsWith('[') && isSensorUnit(cell);
}

/** Units that look as if they were read and must not be, with the reason (normal and standard states differ by country). */
const REFUSED: { unit: RegExp; reason: string }[] = [
  {
    unit: /^(n|s)(m3|m³)\/|^(nm3|nm³|sm3|sm³|nl|sl)|^[ms]?scf|^mmscf|^acfm$/i,
    reason:
      'counts a gas at a normal or standard state that every plant defines its own way; state the mass flow (kg/h) or the volume flow as it is in the pipe (m3/h)',
  },
  {
    unit: /^(k?pa|m?bar|psi|kg\/?cm2)[_ ]?\(?[ga]\)?$/i,
    reason:
      'is a pressure above the atmosphere’s (g) or vacuum (a), not a difference; where the column holds the drop over the exchanger, write bar, kPa or [psi]',
  },
  {
    unit: /^(s|short|long)?tons?\/(h|hr|d|day)$/i,
    reason: 'is 1000 kg in one country and 907 kg in another; write t/h for the metric ton, or [ston_av]/h',
  },
  {
    unit: /^(%|pct|percent)$/i,
    reason: 'is a share of a range that the file does not state; export the column in its engineering unit',
  },
];

function refusalOf(written: string): string | null {
  const plain = written.replace(/\s/g, '');
  return REFUSED.find(({ unit }) => unit.test(plain))?.reason ?? null;
}

/** Why a unit was not taken and which would be. */
export function unitFault(sensor: Sensor, written: string): string {
  const { words, examples } = measuredBy(sensor);
  const refusal = refusalOf(written);
  if (refusal !== null) return `"${written.slice(0, 40)}" ${refusal}`;
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
  const plain = SAME_SIGNS.reduce((text, [sign, same]) => text.replace(sign, same), written);
  const unit = plain.replace(/\s/g, '');
  if (!UNIT.test(unit) || UNREADABLE.test(unit) || OBJECT_NAMES.some((name) => unit.includes(name))) {
    return null;
  }
  const conversion = conversionToSi(unit, kind) ?? conversionToSi(`[${unit}]`, kind);
  // UCUM lets `10*400.kg/s` pass as a unit.
  return conversion !== null && conversion.factor > 0 && Number.isFinite(conversion.factor)
    ? conversion
    : null;
}
