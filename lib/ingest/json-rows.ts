import type { SetAsideReason } from '@/lib/contract/import-report';
import { READING_COLUMNS } from '@/lib/contract/readings';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import type { RowAt } from './chunk-builder';
import { sensorNamed, tagAndSensor } from './column-name';
import type { RowContext } from './column-rows';
import { isLongDocument, type JsonDocument, readDocument } from './json-lines';
import type { Line } from './read-cells';
import { mappedSensor, unknownTag } from './reading-column';
import { exampleUnit, type SensorUnit, sensorUnit, unitFault } from './sensor-unit';
import { quoted } from './set-aside';

/** Units whose conversion is remembered; a file of ever new units must not fill the memory. */
const MAX_REMEMBERED = 10_000;
/** Characters of a value quoted in a message. */
const MAX_QUOTED = 40;
const LONG_KEYS = new Set(['tag', 'time', 'sensor', 'value', 'unit']);

type Refused = { reason: SetAsideReason; field: string | null; message: string };
type Meant = { tag: string; sensor: Sensor; unit: string | null };

/**
 * JSON lines: a document per unit and time, `{"tag", "time", "hotIn": {"value", "unit"}, …}`, or per sensor and time,
 * `{"sensor", "time", "value", "unit"}`. Numbers never come without their unit.
 */
export class JsonRows {
  readonly #context: RowContext;
  readonly #units = new Map<string, SensorUnit | null>();

  constructor(context: RowContext) {
    this.#context = context;
  }

  take(line: Line): void {
    const { builder } = this.#context;
    if (line.cells !== 'too-long' && line.text.trim() === '') return;
    const refused = this.#read(line);
    if (refused !== null) {
      builder.clear();
      builder.setAside(line, refused.reason, refused.field, refused.message);
    }
    builder.countRow();
  }

  end(): void {}

  #read(line: Line): Refused | null {
    if (line.cells === 'too-long') return refused('line-too-long', null, 'the line is longer than 1 MiB');
    const document = readDocument(line.text);
    if (document === null) {
      return refused('not-json', null, 'the line is no JSON document; write one whole document per line');
    }
    const { time: written } = document;
    if (typeof written !== 'string') {
      const message = 'there is no text "time"; write it such as "2026-11-25T08:30:00+01:00"';
      return refused('time-not-readable', 'time', message);
    }
    const { builder, time: timeField } = this.#context;
    const time = timeField.read([written], line, builder);
    if (Number.isNaN(time)) return null;
    return isLongDocument(document)
      ? this.#readLong(document, line, time)
      : this.#readUnit(document, line, time);
  }

  #readUnit(document: JsonDocument, at: RowAt, time: number): Refused | null {
    const tag = this.#tagOf(document.tag);
    if (typeof tag !== 'number') return tag;
    let basis = 0;
    const seen = new Set<Sensor>();
    for (const [key, value] of Object.entries(document)) {
      if (key === 'tag' || key === 'time' || this.#isSkipped(key)) continue;
      const sensor = sensorNamed(key);
      if (sensor === null) return this.#unknownKey(key, [...SENSORS, ...Object.keys(READING_COLUMNS)]);
      if (seen.has(sensor))
        return refused('unknown-sensor', key, 'holds the same as a key before it; keep one');
      seen.add(sensor);
      const found = this.#readQuantity(sensor, key, value);
      if (typeof found === 'object') return found;
      basis |= found;
    }
    return this.#keep({ tag, time, basis, line: at.line });
  }

  #readLong(document: JsonDocument, at: RowAt, time: number): Refused | null {
    const { suggest, options, builder } = this.#context;
    const stranger = Object.keys(document).find((key) => !LONG_KEYS.has(key) && !this.#isSkipped(key));
    if (stranger !== undefined) return this.#unknownKey(stranger, [...LONG_KEYS]);
    const { sensor: name, value, unit } = document;
    if (typeof name !== 'string') return refused('unknown-sensor', 'sensor', 'there is no text "sensor"');
    const meant = this.#meaningOf(name, document.tag);
    if (meant === null) return null;
    if (meant === undefined) {
      const near = suggest(name, Object.keys(options.mapping?.sensors ?? {}));
      const message = `${quoted(name)} is no known sensor${near}add it to the mapping, or name it such as E-101.hot_in`;
      return refused('unknown-sensor', 'sensor', message);
    }
    const tag = builder.tagIndex(meant.tag);
    if (tag < 0) return refused('unknown-tag', 'tag', unknownTag(meant.tag, options, suggest));
    const quantity = value === null || value === undefined ? null : { value, unit: unit ?? meant.unit };
    const found = this.#readQuantity(meant.sensor, 'value', quantity);
    return typeof found === 'object' ? found : this.#keep({ tag, time, basis: found, line: at.line });
  }

  /** What a sensor's name stands for: null where the mapping skips it, undefined where nobody knows. */
  #meaningOf(name: string, tag: unknown): Meant | null | undefined {
    const mapped = mappedSensor(name, this.#context.options);
    if (mapped !== undefined) return mapped;
    const own = typeof tag === 'string' ? sensorNamed(name) : null;
    if (own !== null) return { tag: String(tag).trim(), sensor: own, unit: null };
    const found = tagAndSensor(name);
    return found === null ? undefined : { ...found, unit: null };
  }

  /** Writes a value; returns its bit of the flow basis, or why there is none. */
  #readQuantity(sensor: Sensor, field: string, given: unknown): number | Refused {
    if (given === null || given === undefined || this.#isStatus(given)) return 0;
    const isObject = typeof given === 'object' && !Array.isArray(given);
    const { value, unit } = (isObject ? given : { value: given }) as { value?: unknown; unit?: unknown };
    if (value === null || this.#isStatus(value)) return 0;
    if (typeof value !== 'number') return refused('value-not-a-number', field, numberFault(value));
    if (typeof unit !== 'string' || unit === '') {
      const example = field === 'value' ? `"unit": "${exampleUnit(sensor)}"` : exampleQuantity(sensor, value);
      return refused('value-not-a-number', field, `is a number without its unit; write ${example}`);
    }
    const conversion = this.#conversionOf(sensor, unit);
    if (conversion === null) return refused('unknown-sensor', field, unitFault(sensor, unit));
    const inSi = value * conversion.factor + conversion.offset;
    if (!Number.isFinite(inSi))
      return refused('value-not-a-number', field, 'is a number too large to be one');
    const { builder } = this.#context;
    builder.columns[SENSORS.indexOf(sensor)]![builder.row] = inSi;
    return conversion.basisBit;
  }

  #keep(reading: { tag: number; time: number; basis: number; line: number }): Refused | null {
    const { builder } = this.#context;
    if (builder.columns.every((column) => Number.isNaN(column[builder.row]!))) {
      return refused('no-values', null, 'the document has no value of a sensor');
    }
    builder.keep(reading.tag, reading.time, reading.basis, reading.line);
    return null;
  }

  #tagOf(written: unknown): number | Refused {
    const { builder, options, suggest } = this.#context;
    if (typeof written !== 'string') {
      return refused('unknown-tag', 'tag', 'there is no text "tag" that says which unit the readings are of');
    }
    const tag = builder.tagIndex(written.trim());
    return tag < 0 ? refused('unknown-tag', 'tag', unknownTag(written, options, suggest)) : tag;
  }

  #isSkipped(key: string): boolean {
    return mappedSensor(key, this.#context.options) === null;
  }

  /** Counts a status word: the value was not measured. */
  #isStatus(value: unknown): boolean {
    const { builder, statusWords } = this.#context;
    if (typeof value !== 'string' && !(typeof value === 'number' && statusWords.holdsNumbers)) return false;
    const word = statusWords.wordOf(String(value));
    if (word !== null) builder.countStatus(word);
    return word !== null;
  }

  #unknownKey(key: string, known: string[]): Refused {
    const near = this.#context.suggest(key, known);
    const message = `${quoted(key)} is no key of a reading${near}a mapping can skip it with null`;
    return refused('unknown-sensor', key.slice(0, MAX_QUOTED), message);
  }

  #conversionOf(sensor: Sensor, unit: string): SensorUnit | null {
    const key = `${sensor} ${unit}`;
    const known = this.#units.get(key);
    if (known !== undefined) return known;
    const conversion = sensorUnit(sensor, unit);
    if (this.#units.size >= MAX_REMEMBERED) this.#units.clear();
    this.#units.set(key, conversion);
    return conversion;
  }
}

function numberFault(value: unknown): string {
  const written = (JSON.stringify(value) ?? '').slice(0, MAX_QUOTED);
  return typeof value === 'string'
    ? `${written} is a text; write numbers without quotes, with a decimal point`
    : `${written} is no number; write {"value": 79.6, "unit": "Cel"}`;
}

function exampleQuantity(sensor: Sensor, value: number): string {
  return `{"value": ${value}, "unit": "${exampleUnit(sensor)}"}`;
}

function refused(reason: SetAsideReason, field: string | null, message: string): Refused {
  return { reason, field, message };
}
