import type { Suggest } from '@/lib/contract/nearest-name';
import { READING_COLUMNS } from '@/lib/contract/readings';
import type { Sensor } from '@/lib/core/exchange/exchanger';
import { columnOf, readColumnName, sensorNamed, tagAndSensor } from './column-name';
import type { FileKind, ReadingColumn, ReadingOptions } from './reading-format';
import { exampleUnit, sensorUnit, unitFault } from './sensor-unit';

/** Takes the message as a function, as the nearest name is only looked for where the fault will be shown. */
export type AddFault = (field: string, message: () => string) => void;

export type LayoutContext = {
  kind: FileKind;
  options: ReadingOptions;
  suggest: Suggest;
  addFault: AddFault;
};

/** A column's head, and what the row of units says below it: empty where there is no such row. */
export type ColumnHead = { cell: string; unitCell: string };

/** A column of readings, or one that nobody knows: those are faults, with what to write instead. */
export function readingColumn(head: ColumnHead, context: LayoutContext): ReadingColumn {
  const { cell, unitCell } = head;
  const { kind, options, addFault } = context;
  const mapped = mappedSensor(cell, options);
  if (mapped === null) return { name: cell, use: 'ignored', tag: null, sensor: null, unit: null };
  const { name, unit: ownUnit } = readColumnName(cell);
  const unit = ownUnit ?? (unitCell || null);
  const found =
    mapped ?? (kind === 'canonical' ? bareSensor(name) : kind === 'long' ? null : tagAndSensor(name));
  if (found === null) {
    addFault(cell, () => unknownColumn(name, context));
    return { name: cell, use: 'unknown', tag: null, sensor: null, unit };
  }
  const column: ReadingColumn = {
    name: cell,
    use: 'reading',
    tag: found.tag,
    sensor: found.sensor,
    unit: mapped?.unit ?? unit,
  };
  const fault =
    columnFault(column, found.sensor, context) ??
    contradiction(head, ownUnit, { ...found, unit: mapped?.unit ?? null });
  if (fault !== null) addFault(cell, () => fault);
  return column;
}

type Mapped = { tag: string; sensor: Sensor; unit: string };

/** What the mapping says of a column or sensor: null to skip it, undefined where it says nothing. */
export function mappedSensor(name: string, options: ReadingOptions): Mapped | null | undefined {
  const sensors = options.mapping?.sensors;
  if (sensors === undefined) return undefined;
  const key = [name, name.trim(), readColumnName(name).name].find((form) => Object.hasOwn(sensors, form));
  return key === undefined ? undefined : sensors[key];
}

function bareSensor(name: string): { tag: null; sensor: Sensor } | null {
  const sensor = sensorNamed(name);
  return sensor === null ? null : { tag: null, sensor };
}

function columnFault(column: ReadingColumn, sensor: Sensor, context: LayoutContext): string | null {
  const { options, suggest } = context;
  if (column.tag !== null && !options.knownTags.has(column.tag)) {
    return unknownTag(column.tag, options, suggest);
  }
  if (column.unit === null || column.unit === '') {
    return `has no unit; write it in brackets, such as ${column.name.trim()}[${exampleUnit(sensor)}]`;
  }
  return sensorUnit(sensor, column.unit) === null ? unitFault(sensor, column.unit) : null;
}

/** A header that says degF under a mapping, or over a row of units, that says Cel: only a person knows which is wrong. */
function contradiction(
  { cell, unitCell }: ColumnHead,
  ownUnit: string | null,
  { sensor, unit }: { sensor: Sensor; unit: string | null },
): string | null {
  const said = [
    { by: `the header "${cell.trim()}" says`, unit: ownUnit },
    { by: 'the row of units says', unit: unitCell },
    { by: 'the mapping says', unit },
  ].flatMap(({ by, unit: written }) => {
    const read = written === null ? null : sensorUnit(sensor, written);
    return read === null ? [] : [{ words: `${by} ${written}`, ...read }];
  });
  const [first] = said;
  const other = said.find(({ factor, offset }) => factor !== first!.factor || offset !== first!.offset);
  return other === undefined ? null : `${first!.words}, ${other.words}; mend one of them`;
}

function unknownColumn(name: string, { kind, options, suggest }: LayoutContext): string {
  if (kind === 'plant-wide') {
    const near = suggest(name, Object.keys(options.mapping?.sensors ?? {}));
    return `is not in the mapping${near}add it, with null to skip it, or name it such as E-101.hot_in[Cel]`;
  }
  const names = kind === 'long' ? ['time', 'sensor', 'value', 'unit'] : Object.keys(READING_COLUMNS);
  return `is no column of a readings file${suggest(name, names)}a mapping can skip it with null`;
}

/** Why a tag was not taken, in words. */
export function unknownTag(tag: string, options: ReadingOptions, suggest: Suggest): string {
  const near = suggest(tag, options.knownTags);
  return `there is no unit "${tag.slice(0, 60)}"${near}register it first or mend the tag`;
}

/** Where a sensor's column is named in a message. */
export function nameOfReading(column: ReadingColumn): string {
  return column.tag === null && column.sensor !== null ? columnOf(column.sensor) : column.name;
}
