import { plainName } from '@/lib/contract/plain-name';
import { READING_COLUMNS } from '@/lib/contract/readings';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';

/** A column head taken apart: `E-101.hot_in[Cel]` has the name `E-101.hot_in` and the unit `Cel`. */
export type ColumnName = { name: string; unit: string | null };

/** The unit stands in brackets at the end. Units have brackets of their own, `[[gal_us]/min]`, so the outermost count. */
export function readColumnName(head: string): ColumnName {
  const cell = head.replace(/\s+/g, ' ').trim();
  const open = cell.indexOf('[');
  if (open >= 0) {
    const close = cell.endsWith(']') && closesAtEnd(cell, open);
    // `hot_flow[gal_us]/min` has lost its outer brackets: all of it is the unit.
    const unit = close ? cell.slice(open + 1, -1) : cell.slice(open);
    return { name: cell.slice(0, open).trim(), unit: unit.trim() };
  }
  const round = /^(.*)\(([^()]*)\)$/.exec(cell);
  return round ? { name: round[1]!.trim(), unit: round[2]!.trim() } : { name: cell, unit: null };
}

/** Whether the bracket at `open` is the one that the last character closes. */
function closesAtEnd(cell: string, open: number): boolean {
  let depth = 0;
  for (let i = open; i < cell.length; i++) {
    if (cell[i] === '[') depth++;
    if (cell[i] === ']') depth--;
    if (depth === 0) return i === cell.length - 1;
  }
  return false;
}

const SENSOR_BY_NAME = new Map<string, Sensor>([
  ...SENSORS.map((sensor): [string, Sensor] => [plainName(sensor), sensor]),
  ...Object.entries(READING_COLUMNS).map(([column, sensor]): [string, Sensor] => [plainName(column), sensor]),
]);

/** Usual words for what the canonical columns are called: `Hot side inlet temperature` is hot_in. */
const SENSOR_BY_USUAL_NAME = new Map<string, Sensor>(
  (['hot', 'cold'] as const).flatMap((side) =>
    ['', 'side', 'stream', 'fluid'].flatMap((of) =>
      [
        ...named(`${side}In`, ['in', 'inlet'], ['', 'temp', 'temperature']),
        ...named(`${side}Out`, ['out', 'outlet'], ['', 'temp', 'temperature']),
        ...named(`${side}Flow`, ['flow', 'massflow', 'volumeflow'], ['', 'rate']),
        ...named(`${side}PressureDrop`, ['dp', 'deltap', 'pressuredrop', 'differentialpressure'], ['']),
      ].map(([name, sensor]): [string, Sensor] => [side + of + name, sensor]),
    ),
  ),
);

function named(sensor: Sensor, words: readonly string[], ends: readonly string[]): [string, Sensor][] {
  return words.flatMap((word) => ends.map((end): [string, Sensor] => [word + end, sensor]));
}

/** The sensor that a name without a tag stands for. */
export function sensorNamed(name: string): Sensor | null {
  const plain = plainName(name);
  return SENSOR_BY_NAME.get(plain) ?? SENSOR_BY_USUAL_NAME.get(plain) ?? null;
}

/** The column of the canonical file that holds a sensor, for messages. */
export function columnOf(sensor: Sensor): string {
  return Object.entries(READING_COLUMNS).find(([, held]) => held === sensor)![0];
}

/** `E-101.hot_in` as tag and sensor, split at the last point; null where it does not end in a sensor. */
export function tagAndSensor(name: string): { tag: string; sensor: Sensor } | null {
  const point = name.lastIndexOf('.');
  if (point <= 0) return null;
  // Longer names are left to the mapping: its guess looks at their tags more closely.
  const sensor = SENSOR_BY_NAME.get(plainName(name.slice(point + 1))) ?? null;
  return sensor === null ? null : { tag: name.slice(0, point).trim(), sensor };
}

/** What the column of tags is called beside `tag`. */
const TAG_NAMES = new Set(
  ['equipment', 'asset', 'exchanger', 'unit'].flatMap((name) => [name, `${name}tag`]),
);

/**
 * The field of the column that says which unit a row belongs to; -1 where there is none. Other words than `tag` count only
 * beside columns of sensors without tags; in a long file `unit` is the unit of measure.
 */
export function tagField(heads: readonly string[]): number {
  const names = heads.map((head) => readColumnName(head).name);
  const plain = names.map(plainName);
  const tag = plain.indexOf('tag');
  if (tag >= 0) return tag;
  if (isLongHeader(plain)) return plain.findIndex((name) => name !== 'unit' && TAG_NAMES.has(name));
  const isCanonical = names.some((name) => sensorNamed(name) !== null) && !names.some(isWholeName);
  return isCanonical ? plain.findIndex((name) => TAG_NAMES.has(name)) : -1;
}

function isWholeName(name: string): boolean {
  return tagAndSensor(name) !== null;
}

/** Whether the columns, by their plain names, are those of one sensor and time per row. */
export function isLongHeader(names: readonly string[]): boolean {
  return names.includes('sensor') && names.includes('value');
}
