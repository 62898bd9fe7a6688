import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Mapping } from '@/lib/contract/mapping';
import { READING_COLUMNS } from '@/lib/contract/readings';
import type { Sensor } from '@/lib/core/exchange/exchanger';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { demoPlans, demoSpan, lastHour } from './demo-plan';
import { generateReadings } from './generate/generate-readings';
import { type LoggedUnit, loggedUnits, roundToStep } from './generate/log-units';
import { MS_PER_DAY } from './generate/true-cycles';
import type { UnitPlan } from './generate/unit-plan';

/** The canonical file is the latest week of this unit, the long file the latest days of that one. */
const CANONICAL_TAG = 'SC-152';
const LONG_TAG = 'LC-172';
const CANONICAL_DAYS = 7;
const LONG_DAYS = 3;

export type SampleFile = { name: string; text: string };
export type SampleFiles = {
  /** One row per time, with six rows nobody can read. */
  canonical: SampleFile;
  brokenRows: number;
  /** One row per sensor and time, in the plant's own names, with the mapping that explains them. */
  long: SampleFile;
  mapping: Mapping;
};

/** Two example files of readings from the demonstration's last days, as text. `end` [ms] is the end of the record. */
export function makeSampleFiles(end: number): SampleFiles {
  const { text, brokenRows } = canonicalFile(end);
  return {
    canonical: { name: 'readings-canonical.csv', text },
    brokenRows,
    ...longFile(end),
  };
}

/** Writes the example files and the mapping of the long one into a folder, and returns their paths. */
export function writeSampleFiles(folder: string, end: number): string[] {
  mkdirSync(folder, { recursive: true });
  const { canonical, long, mapping } = makeSampleFiles(end);
  const files = [
    canonical,
    long,
    { name: 'readings-long.mapping.json', text: `${JSON.stringify(mapping, null, 2)}\n` },
  ];
  return files.map(({ name, text }) => {
    const path = join(folder, name);
    writeFileSync(path, text);
    return path;
  });
}

type Recent = {
  plan: UnitPlan;
  readings: ReadingColumns;
  logged: Record<Sensor, LoggedUnit>;
  rows: number[];
};

function recent(tag: string, days: number, end: number): Recent {
  const plans = demoPlans();
  const index = plans.findIndex(({ unit }) => unit.tag === tag);
  const plan = plans[index]!;
  const { readings } = generateReadings(plan, demoSpan(lastHour(end), index));
  const since = lastHour(end) - days * MS_PER_DAY;
  const rows = [...readings.time.keys()].filter((row) => readings.time[row]! > since);
  return { plan, readings, logged: loggedUnits(plan.unit), rows };
}

/** A value as the historian wrote it; empty where nothing was measured. */
function written({ readings, logged }: Recent, sensor: Sensor, row: number): string {
  const value = readings[sensor][row]!;
  if (Number.isNaN(value)) return '';
  const { conversion, step } = logged[sensor];
  return String(roundToStep((value - conversion.offset) / conversion.factor, step));
}

function instant({ readings }: Recent, row: number): string {
  return new Date(readings.time[row]!).toISOString().replace('.000Z', 'Z');
}

function canonicalFile(end: number): { text: string; brokenRows: number } {
  const source = recent(CANONICAL_TAG, CANONICAL_DAYS, end);
  const columns = Object.entries(READING_COLUMNS).filter(([, sensor]) =>
    source.rows.some((row) => !Number.isNaN(source.readings[sensor][row]!)),
  );
  const head = columns.map(([name, sensor]) => `${name}[${source.logged[sensor].unit}]`);
  const lines = source.rows.map((row) => [
    CANONICAL_TAG,
    instant(source, row),
    ...columns.map(([, sensor]) => written(source, sensor, row)),
  ]);
  const broken = BREAKS.filter(({ line }) => line < lines.length);
  for (const { line, breakRow } of broken) lines[line] = breakRow(lines[line]!);
  const text = [['tag', 'time', ...head], ...lines].map((fields) => `${fields.join(',')}\n`).join('');
  return { text, brokenRows: broken.length };
}

/** What goes wrong in real files, each on a line of its own (counted from the first data row). */
const BREAKS: { line: number; breakRow: (fields: string[]) => string[] }[] = [
  { line: 12, breakRow: ([tag, time, , ...rest]) => [tag!, time!, '72.5 °C', ...rest] },
  { line: 31, breakRow: ([tag, time, ...rest]) => [tag!, time!.replace('T', ' um '), ...rest] },
  { line: 57, breakRow: ([, time, ...rest]) => ['SC-15Z', time!, ...rest] },
  { line: 80, breakRow: (fields) => fields.slice(0, 4) },
  { line: 104, breakRow: ([tag, time, ...rest]) => [tag!, time!.replace('Z', ''), ...rest] },
  { line: 133, breakRow: ([tag, time, ...rest]) => [tag!, time!, ...rest.map(() => '')] },
];

/** Sensor names as a plant numbers its instruments. */
const INSTRUMENTS: [string, Sensor][] = [
  ['TI-1720', 'hotIn'],
  ['TI-1721', 'hotOut'],
  ['TI-1722', 'coldIn'],
  ['TI-1723', 'coldOut'],
  ['FI-1724', 'hotFlow'],
  ['FI-1725', 'coldFlow'],
];

function longFile(end: number): { long: SampleFile; mapping: Mapping } {
  const source = recent(LONG_TAG, LONG_DAYS, end);
  const lines = source.rows.flatMap((row) =>
    INSTRUMENTS.map(([name, sensor]) => `${instant(source, row)},${name},${written(source, sensor, row)}\n`),
  );
  const sensors = Object.fromEntries(
    INSTRUMENTS.map(([name, sensor]) => [name, { tag: LONG_TAG, sensor, unit: source.logged[sensor].unit }]),
  );
  return {
    long: { name: 'readings-long.csv', text: `time,sensor,value\n${lines.join('')}` },
    mapping: { sensors },
  };
}
