import type { SetAsideReason } from '@/lib/contract/import-report';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import type { RowAt } from './chunk-builder';
import { readColumnName, sensorNamed, tagAndSensor } from './column-name';
import type { RowContext } from './column-rows';
import { readDecimal } from './read-decimal';
import { mappedSensor, unknownTag } from './reading-column';
import { numberFault, type RowReader } from './row-reader';
import { exampleUnit, sensorUnit, unitFault } from './sensor-unit';
import { quoted } from './set-aside';

/** Sensor names whose meaning is remembered; a file of ever new names must not fill the memory. */
const MAX_REMEMBERED = 50_000;

type Found = { tag: number; sensor: number; factor: number; offset: number; basisBit: number };
/** What a row says of its sensor; `tag` is null where the file has no column of tags. */
type Named = { name: string; unit: string; tag: string | null };
type Refused = { reason: SetAsideReason; field: string; message: string };

/** Rows of one sensor and time each: `time,sensor,value` and perhaps `unit`, and `tag` where the sensor's name lacks it. */
export class LongRows implements RowReader {
  readonly #context: RowContext;
  readonly #sensorField: number;
  readonly #valueField: number;
  readonly #unitField: number;
  readonly #tagField: number;
  readonly #remembered = new Map<string, Found | Refused | null>();

  constructor(context: RowContext) {
    const fieldOf = (use: string) => context.columns.findIndex((column) => column.use === use);
    this.#context = context;
    this.#sensorField = fieldOf('sensor');
    this.#valueField = fieldOf('value');
    this.#unitField = fieldOf('unit');
    this.#tagField = fieldOf('tag');
  }

  take(cells: string[], at: RowAt): void {
    const { builder, time: timeField } = this.#context;
    const time = timeField.read(cells, at, builder);
    if (Number.isNaN(time)) return;
    const found = this.#sensorOf(cells);
    if (found === null) return;
    if ('reason' in found) {
      builder.setAside(at, found.reason, found.field, found.message);
      return;
    }
    this.#readValue(cells[this.#valueField]!, at, time, found);
  }

  #readValue(cell: string, at: RowAt, time: number, found: Found): void {
    const { builder, decimalSign, statusWords } = this.#context;
    if (cell === '') {
      builder.setAside(at, 'no-values', 'value', 'the row has no value');
      return;
    }
    const value = readDecimal(cell, decimalSign) * found.factor + found.offset;
    const isValue = Number.isFinite(value);
    const word = isValue && !statusWords.holdsNumbers ? null : statusWords.wordOf(cell);
    if (word !== null) {
      builder.countStatus(word);
      builder.setAside(at, 'no-values', 'value', `${quoted(cell)} says that nothing was measured`);
      return;
    }
    if (!isValue) {
      builder.setAside(at, 'value-not-a-number', 'value', numberFault(cell, decimalSign));
      return;
    }
    builder.columns[found.sensor]![builder.row] = value;
    builder.keep(found.tag, time, found.basisBit, at.line);
  }

  /** What the row's sensor is; null where the mapping skips it. */
  #sensorOf(cells: string[]): Found | Refused | null {
    return this.sensorNamed({
      name: cells[this.#sensorField]!,
      unit: this.#unitField < 0 ? '' : cells[this.#unitField]!,
      tag: this.#tagField < 0 ? null : cells[this.#tagField]!.trim(),
    });
  }

  /** What the sensor of these names is; null where the mapping skips it. */
  sensorNamed(named: Named): Found | Refused | null {
    const { name, unit, tag } = named;
    const key = `${unit}\n${tag ?? ''}\n${name}`;
    const known = this.#remembered.get(key);
    if (known !== undefined) return known;
    const found = this.#look(named);
    if (this.#remembered.size >= MAX_REMEMBERED) this.#remembered.clear();
    this.#remembered.set(key, found);
    return found;
  }

  #look({ name, unit: unitCell, tag: tagCell }: Named): Found | Refused | null {
    const { options, builder, columns, suggest } = this.#context;
    const mapped = mappedSensor(name, options);
    if (mapped === null) return null;
    const written = readColumnName(name);
    const meant = mapped ?? besideTag(written.name, tagCell) ?? tagAndSensor(written.name);
    if (meant === null) return refused('unknown-sensor', 'sensor', this.#unknownSensor(name));
    const tag = builder.tagIndex(meant.tag);
    if (tag < 0) {
      const field = meant.tag === tagCell ? 'tag' : 'sensor';
      return refused('unknown-tag', field, unknownTag(meant.tag, options, suggest));
    }
    // The row's own unit is nearest to the value, then the name's, the mapping's, the header's.
    const unit = unitCell || written.unit || mapped?.unit || columns[this.#valueField]!.unit || '';
    return unitOf(meant.sensor, unit, tag);
  }

  #unknownSensor(name: string): string {
    const { options, suggest } = this.#context;
    const near = suggest(name, Object.keys(options.mapping?.sensors ?? {}));
    const remedy = 'add it to the mapping, or name it such as E-101.hot_in';
    return `${quoted(name)} is no known sensor${near}${remedy}`;
  }
}

function besideTag(name: string, tag: string | null): { tag: string; sensor: Sensor } | null {
  const sensor = tag === null ? null : sensorNamed(name);
  return sensor === null ? null : { tag: tag!, sensor };
}

function unitOf(sensor: Sensor, unit: string, tag: number): Found | Refused {
  if (unit === '') {
    const remedy = `add a column "unit", such as ${exampleUnit(sensor)}, or give a mapping`;
    return refused('unknown-sensor', 'unit', `the row does not say in which unit its value is; ${remedy}`);
  }
  const conversion = sensorUnit(sensor, unit);
  if (conversion === null) return refused('unknown-sensor', 'unit', unitFault(sensor, unit));
  return { tag, sensor: SENSORS.indexOf(sensor), ...conversion };
}

function refused(reason: SetAsideReason, field: string, message: string): Refused {
  return { reason, field, message };
}
