import type { ImportPreview, PreviewColumn } from '@/lib/contract/import-preview';
import { TIME_FORMAT_WORDS } from '@/lib/contract/time-formats';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import type { ChartView } from '@/lib/report/format/chart-view';
import type { DisplayUnit } from '@/lib/report/format/display-unit';
import { formatFigure, formatNumber } from '@/lib/report/format/figure';
import { formatInstant } from '@/lib/report/format/time';
import { ucumInWords } from '@/lib/report/format/ucum-words';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf, SENSOR_WORDS } from '@/lib/report/format/words';
import { faultsElsewhere } from './choice-problems';
import { previewCharts } from './preview-charts';
import { unitOf } from './preview-units';
import { SET_ASIDE_WORDS } from './set-aside-words';

export type ColumnRow = { name: string; use: string; tag: string; quantity: string; unit: string };

export type PreviewTable = {
  sensors: { sensor: Sensor; head: string; unit: string }[];
  rows: { key: string; line: number; text: string; tag: string; time: string; values: string[] }[];
};

export type PreviewView = {
  statement: string;
  facts: { label: string; value: string }[];
  columns: ColumnRow[];
  table: PreviewTable;
  charts: ChartView[];
  plotTag: string | null;
  setAside: { line: number; text: string; reason: string; message: string }[];
  setAsideTitle: string;
  faults: string[];
  /** The columns are listed with their guesses: no further table of them is needed. */
  needsMapping: boolean;
  needsZone: boolean;
  /** The zone of the site, where all units of the file are of one. */
  proposedZone: string | null;
  canImport: boolean;
};

/** Rows kept aside that a preview shows; the report of the import lists more. */
const SHOWN_SET_ASIDE = 12;

/** What a chosen file holds, in the reader's units. */
export function previewView(preview: ImportPreview, system: UnitSystem): PreviewView {
  const { setAside, faults } = preview;
  const zones = new Set(preview.units.map(({ timeZone }) => timeZone));
  return {
    statement: statementOf(preview),
    facts: factsOf(preview),
    columns: preview.format.columns.map(columnRow),
    table: tableOf(preview, system),
    charts: previewCharts(preview, system),
    plotTag: preview.plot?.tag ?? null,
    setAside: setAside.slice(0, SHOWN_SET_ASIDE).map(({ line, text, reason, message }) => ({
      line,
      text,
      reason: SET_ASIDE_WORDS[reason].reason,
      message,
    })),
    setAsideTitle: setAsideTitle(preview),
    faults: faultsShown(preview).map(
      ({ field, message, line }) => `${line ? `Line ${line}, ` : ''}${field}: ${message}`,
    ),
    needsMapping: preview.mapping !== null,
    needsZone: setAside.some(({ reason }) => reason === 'time-without-zone'),
    proposedZone: zones.size === 1 ? [...zones][0]! : null,
    canImport: faults.length === 0 && preview.units.length > 0,
  };
}

/** Faults of columns that are listed with their guesses stand there. */
function faultsShown({ faults, mapping }: ImportPreview): ImportPreview['faults'] {
  return mapping === null ? faults : faultsElsewhere(faults, mapping.columns);
}

function setAsideTitle({ looked, units }: ImportPreview): string {
  const first = looked.setAside > SHOWN_SET_ASIDE ? ` (the first ${SHOWN_SET_ASIDE} are shown)` : '';
  const rest = units.length === 0 ? '' : '; the rest goes in';
  return `${countOf(looked.setAside, 'row')} would be kept aside${rest}${first}`;
}

function statementOf({ looked, units, faults, mapping, format }: ImportPreview): string {
  if (mapping === null && faults.length === 1 && format.times?.format === null)
    return 'Choose above how the times are written; then the file can be read.';
  if (faults.length > 0)
    return mapping === null
      ? 'The header cannot be read yet; what is in the way stands below.'
      : 'Say below which unit and quantity each column stands for; then the file can be read.';
  const rows = looked.isWhole
    ? countOf(looked.rows, 'row')
    : `the first ${formatNumber(looked.rows, 0)} rows were looked at`;
  if (units.length === 0) return `No readings of a registered unit were found (${rows}).`;
  const [first, last] = [
    Math.min(...units.map(({ firstTime }) => firstTime)),
    Math.max(...units.map(({ lastTime }) => lastTime)),
  ];
  const zone = units[0]!.timeZone;
  return `Readings of ${unitsInWords(units)}, ${formatInstant(first, zone)} to ${formatInstant(last, zone)} (${zone}); ${rows}.`;
}

function unitsInWords(units: ImportPreview['units']): string {
  const named = units.slice(0, 3).map(({ tag }) => tag);
  const more = units.length - named.length;
  return more > 0 ? `${named.join(', ')} and ${countOf(more, 'more unit', 'more units')}` : named.join(', ');
}

const KIND_WORDS: Record<ImportPreview['format']['kind'], string> = {
  canonical: 'one row per unit and time',
  long: 'one row per sensor and time',
  'plant-wide': 'one row per time, a column per sensor',
};
const DELIMITER_WORDS: Record<string, string> = { ',': 'comma', ';': 'semicolon', '\t': 'tab' };
const ENCODING_WORDS: Record<string, string> = {
  'utf-8': 'UTF-8',
  'utf-16le': 'UTF-16 LE',
  'utf-16be': 'UTF-16 BE',
  'windows-1252': 'Windows-1252 (Western)',
  cp850: 'code page 850 (DOS, Western)',
};

const CONTAINER_WORDS: Record<ImportPreview['format']['container'], string> = {
  text: 'text',
  workbook: 'workbook (XLSX)',
  'json-lines': 'a JSON document per line',
};
const ROLE_WORDS: Record<ImportPreview['format']['headerRows'][number]['role'], string> = {
  names: 'names',
  units: 'units of measure',
  description: 'descriptions',
  title: 'title',
};

function factsOf({ format }: ImportPreview): PreviewView['facts'] {
  const { kind, container, sheet, headerRows, compressed } = format;
  const rows = headerRows.map(({ line, role }) => `line ${line} ${ROLE_WORDS[role]}`);
  return [
    { label: 'Layout', value: KIND_WORDS[kind] },
    ...(headerRows.length < 2 ? [] : [{ label: 'Header', value: rows.join(', ') }]),
    ...(container === 'text'
      ? textFacts(format)
      : [{ label: 'Written as', value: `${CONTAINER_WORDS[container]}${compressed ? ', gzip' : ''}` }]),
    ...(container === 'text' ? timeFacts(format) : []),
    ...(sheet === null ? [] : [{ label: 'Sheet', value: sheet }]),
  ];
}

function timeFacts({ times }: ImportPreview['format']): PreviewView['facts'] {
  if (times === undefined) return [];
  const { format, evidence } = times;
  const written = format === null ? 'not decided' : TIME_FORMAT_WORDS[format];
  return [{ label: 'Times', value: evidence === '' ? written : `${written}: ${evidence}` }];
}

function textFacts({ delimiter, decimalComma, encoding, compressed }: ImportPreview['format']) {
  return [
    { label: 'Between fields', value: DELIMITER_WORDS[delimiter] ?? delimiter },
    { label: 'Decimal sign', value: decimalComma ? 'comma (12,5)' : 'point (12.5)' },
    { label: 'Encoding', value: `${ENCODING_WORDS[encoding] ?? encoding}${compressed ? ', gzip' : ''}` },
  ];
}

const USE_WORDS: Record<PreviewColumn['use'], string> = {
  tag: 'unit tag',
  time: 'time',
  date: 'date',
  sensor: 'sensor name',
  value: 'value',
  unit: 'unit of measure',
  reading: 'reading',
  ignored: 'skipped',
  unknown: 'not known',
};

function columnRow({ name, use, tag, sensor, unit }: PreviewColumn): ColumnRow {
  return {
    name: name.trim() === '' ? '(no name)' : name,
    use: USE_WORDS[use],
    tag: use !== 'reading' ? '' : (tag ?? 'as the row says'),
    quantity: sensor === null ? '' : SENSOR_WORDS[sensor],
    unit: unit === null ? '' : ucumInWords(unit),
  };
}

/** Readings of one row shown at most: a plant-wide row holds one of every unit. */
const MOST_READINGS_OF_A_ROW = 3;

function tableOf({ rows, units }: ImportPreview, system: UnitSystem): PreviewTable {
  const zones = new Map(units.map(({ tag, timeZone }) => [tag, timeZone]));
  const readings = rows.flatMap((row) => row.readings.map((reading) => ({ row, reading })));
  const sensors = SENSORS.filter((sensor) =>
    readings.some(({ reading }) => reading.values[sensor] !== undefined),
  );
  const basis = readings.reduce((bits, { reading }) => bits | reading.flowBasis, 0);
  const shown = new Map(sensors.map((sensor) => [sensor, unitOf(sensor, basis, system)]));
  return {
    sensors: sensors.map((sensor) => ({ sensor, head: HEADS[sensor], unit: shown.get(sensor)!.label })),
    rows: rows.flatMap(({ line, text, readings: ofRow }) => {
      const blank = { line, text, tag: '', time: '', values: sensors.map(() => '') };
      if (ofRow.length === 0) return [{ ...blank, key: `${line}` }];
      return ofRow.slice(0, MOST_READINGS_OF_A_ROW).map(({ tag, time, values }, place) => ({
        key: `${line} ${place}`,
        line,
        text: place === 0 ? text : '',
        tag,
        time: formatInstant(time, zones.get(tag) ?? 'UTC'),
        values: sensors.map((sensor) => valueText(values[sensor], sensor, shown.get(sensor)!)),
      }));
    }),
  };
}

const HEADS: Record<Sensor, string> = {
  hotIn: 'hot in',
  hotOut: 'hot out',
  coldIn: 'cold in',
  coldOut: 'cold out',
  hotFlow: 'hot flow',
  coldFlow: 'cold flow',
  hotPressureDrop: 'hot Δp',
  coldPressureDrop: 'cold Δp',
};

function valueText(value: number | undefined, sensor: Sensor, shown: DisplayUnit): string {
  // One decimal more than instruments read, so that nothing that was written gets lost.
  const digits = sensor.endsWith('In') || sensor.endsWith('Out') ? { decimals: 2 } : { digits: 4 };
  return formatFigure(value, 'temperature', 'si', { shown, ...digits }).number;
}
