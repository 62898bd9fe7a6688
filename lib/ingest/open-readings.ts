import { makeSuggest } from '@/lib/contract/nearest-name';
import type { ByteStream } from './byte-stream';
import { openBytes } from './byte-stream';
import { ChunkBuilder } from './chunk-builder';
import { ColumnRows } from './column-rows';
import { readLayout } from './file-layout';
import { isJsonLines, jsonLayout, readJsonLines } from './json-lines';
import { JsonRows } from './json-rows';
import { LongRows } from './long-rows';
import { PlainColumnRow } from './plain/plain-column-row';
import { PlainLongRow } from './plain/plain-long-row';
import type { PlainRow } from './plain/plain-row';
import { type Line, readLines } from './read-cells';
import { COMMA, POINT } from './read-decimal';
import type { Layout, ReadingFormat, ReadingOptions } from './reading-format';
import { MAX_RECORD_LINES, RecordFeed } from './record-feed';
import { sniffDialect } from './sniff-dialect';
import { StatusWords } from './status-words';
import { type Encoding, makeDecoder, sniffEncoding } from './text-encoding';
import { linesOf, type TextSource, textSource } from './text-source';
import { TimeField, timePlace } from './time-field';
import { timesOf } from './times-of-file';
import { openSheet } from './xlsx/open-sheet';
import { isZip, refuseOldWorkbook } from './xlsx/workbook-kind';

/** A readings file whose header has been read. */
export type OpenReadings = {
  format: ReadingFormat;
  layout: Layout;
  /** The lines behind the header, in batches as they arrive. */
  lines: AsyncGenerator<Line[]>;
  /** The same lines as bytes, of text in cells; either is read, not both. */
  text: TextSource | null;
  close(): Promise<void>;
};

/** Takes lines in the file's order and fills the chunks of a builder. */
type LineFeed = { take(line: Line): void; end(): void };

/** Finds out how a file is written and what its columns hold. Refuses what is no readings file at all. */
export async function openReadings(
  source: AsyncIterable<Uint8Array>,
  options: ReadingOptions,
): Promise<OpenReadings> {
  const bytes = await openBytes(source);
  try {
    if (isZip(bytes.head)) return await openSheet(bytes, options);
    refuseOldWorkbook(bytes.head);
    const encoding = sniffEncoding(bytes.head);
    const head = makeDecoder(encoding)(bytes.head);
    const open = isJsonLines(head) ? openJsonLines : openText;
    return open({ bytes, encoding, head }, options);
  } catch (error) {
    await bytes.close();
    throw error;
  }
}

type TextFile = { bytes: ByteStream; encoding: Encoding; head: string };

function openText({ bytes, encoding, head }: TextFile, options: ReadingOptions): OpenReadings {
  const { delimiter, decimalComma, terminator, header, rows } = sniffDialect(
    head,
    bytes.headIsAll,
    options.mapping,
  );
  const layout = readLayout(header, options, rows);
  const { kind, columns } = layout;
  const times = timesOf(layout, { line: header.line, rows }, options);
  const read = (texts: string[], first: number) => readLines(texts, first, delimiter);
  const lines = { pieces: bytes.pieces, encoding, terminator, skipped: header.last, read };
  return {
    format: {
      kind,
      container: 'text',
      sheet: null,
      headerRows: header.rows,
      delimiter,
      decimalComma,
      encoding,
      compressed: bytes.compressed,
      columns,
      times,
    },
    layout,
    lines: linesOf(lines),
    text: textSource(lines),
    close: bytes.close,
  };
}

function openJsonLines({ bytes, encoding, head }: TextFile, options: ReadingOptions): OpenReadings {
  const layout = jsonLayout(head, options);
  const { kind, columns } = layout;
  return {
    format: {
      kind,
      container: 'json-lines',
      sheet: null,
      headerRows: [],
      delimiter: ',',
      decimalComma: false,
      encoding,
      compressed: bytes.compressed,
      columns,
      times: { format: 'iso', evidence: '' },
    },
    layout,
    lines: linesOf({ pieces: bytes.pieces, encoding, terminator: '\n', skipped: 0, read: readJsonLines }),
    text: null,
    close: bytes.close,
  };
}

/** What turns the lines of an open file into chunks; `plain` takes those of text that need no parser. */
export type RowMachinery = { builder: ChunkBuilder } & (
  | { feed: RecordFeed; plain: PlainRow }
  | { feed: LineFeed; plain: null }
);

export function rowMachinery(file: OpenReadings, options: ReadingOptions): RowMachinery {
  const { kind, columns, delimiter, decimalComma, container, times } = file.format;
  const isJson = container === 'json-lines';
  const place = isJson ? { field: 0, dateField: -1, name: 'time' } : timePlace(columns);
  const unitsPerLine = new Set(columns.map((column) => column.tag)).size;
  // Lines held back by an open quote come at once when it is given up.
  const builder = new ChunkBuilder(options.knownTags, unitsPerLine * MAX_RECORD_LINES);
  const context = {
    columns,
    decimalSign: decimalComma ? COMMA : POINT,
    time: new TimeField(place, times, options),
    options,
    builder,
    suggest: makeSuggest(),
    statusWords: new StatusWords(options.mapping?.statusWords ?? []),
  };
  if (isJson) return { builder, feed: new JsonRows(context), plain: null };
  const long = kind === 'long' ? new LongRows(context) : null;
  const feed = new RecordFeed({ delimiter, columns, builder, reader: long ?? new ColumnRows(context) });
  if (file.text === null) return { builder, feed, plain: null };
  const plain = { ...context, delimiter: delimiter.charCodeAt(0), decode: file.text.decode };
  return { builder, feed, plain: long === null ? new PlainColumnRow(plain) : new PlainLongRow(plain, long) };
}
