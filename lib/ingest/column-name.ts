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

export function sensorNamed(name: string): Sensor | null {
  return SENSOR_BY_NAME.get(plainName(name)) ?? null;
}

/** The column of the canonical file that holds a sensor, for messages. */
export function columnOf(sensor: Sensor): string {
  return Object.entries(READING_COLUMNS).find(([, held]) => held === sensor)![0];
}

/** `E-101.hot_in` as tag and sensor, split at the last point; null where it does not end in a sensor. */
export function tagAndSensor(name: string): { tag: string; sensor: Sensor } | null {
  const point = name.lastIndexOf('.');
  if (point <= 0) return null;
  const sensor = sensorNamed(name.slice(point + 1));
  return sensor === null ? null : { tag: name.slice(0, point).trim(), sensor };
}
