import { sensorNamed } from './column-name';
import { MAX_LINE_CHARACTERS } from './line-splitter';
import type { Line } from './read-cells';
import type { Layout, ReadingColumn, ReadingOptions } from './reading-format';
import { unreadable } from './text-encoding';

/** Documents looked at for the keys that a file has. */
const COMPARED_DOCUMENTS = 50;
/** Keys of which a preview shows a column. */
const MAX_COLUMNS = 100;

export type JsonDocument = Record<string, unknown>;

/** Whether a text has a JSON document on each line. */
export function isJsonLines(head: string): boolean {
  if (/^\s*\[\s*[[{\]]/.test(head)) {
    throw unreadable(
      'This is a JSON list; write one JSON document per line instead, without the brackets around and the commas between them',
    );
  }
  return /^\s*\{/.test(head);
}

export function readJsonLines(texts: string[], firstNumber: number): Line[] {
  return texts.map((text, i) => ({
    line: firstNumber + i,
    text,
    cells: text.length > MAX_LINE_CHARACTERS ? 'too-long' : [text],
  }));
}

/** The document on a line; null where there is none. */
export function readDocument(text: string): JsonDocument | null {
  try {
    const document: unknown = JSON.parse(text);
    const isDocument = typeof document === 'object' && document !== null && !Array.isArray(document);
    return isDocument ? (document as JsonDocument) : null;
  } catch {
    return null;
  }
}

/** Whether a document is of one sensor: `sensor` and `value`, not a key per sensor. */
export function isLongDocument(document: JsonDocument): boolean {
  return Object.hasOwn(document, 'sensor') || Object.hasOwn(document, 'value');
}

/** The keys of the first documents as columns, to show what a file holds; each document says itself what is in it. */
export function jsonLayout(head: string, options: ReadingOptions): Layout {
  const documents = head
    .split('\n', COMPARED_DOCUMENTS)
    .map(readDocument)
    .filter((document) => document !== null);
  const isLong = documents[0] !== undefined && isLongDocument(documents[0]);
  const columns = new Map<string, ReadingColumn>();
  for (const document of documents) {
    for (const [key, value] of Object.entries(document)) {
      if (columns.size >= MAX_COLUMNS) break;
      const column = columns.get(key) ?? jsonColumn(key, isLong, options);
      columns.set(key, { ...column, unit: column.unit ?? unitOf(value) });
    }
  }
  return { kind: isLong ? 'long' : 'canonical', columns: [...columns.values()], faults: [] };
}

function jsonColumn(name: string, isLong: boolean, options: ReadingOptions): ReadingColumn {
  const column = { name, tag: null, sensor: null, unit: null };
  if (name === 'tag' || name === 'time') return { ...column, use: name };
  if (isLong && (name === 'sensor' || name === 'value' || name === 'unit')) return { ...column, use: name };
  if (options.mapping?.sensors[name] === null) return { ...column, use: 'ignored' };
  const sensor = isLong ? null : sensorNamed(name);
  return sensor === null ? { ...column, use: 'unknown' } : { ...column, use: 'reading', sensor };
}

function unitOf(value: unknown): string | null {
  if (typeof value !== 'object' || value === null || !('unit' in value)) return null;
  return typeof value.unit === 'string' ? value.unit : null;
}
