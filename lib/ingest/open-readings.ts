import { openBytes } from './byte-stream';
import { ChunkBuilder } from './chunk-builder';
import { ColumnRows } from './column-rows';
import { readLayout } from './file-layout';
import { LineSplitter } from './line-splitter';
import { LongRows } from './long-rows';
import { makeSuggest } from './nearest-name';
import { type Line, readLines } from './read-cells';
import { COMMA, POINT } from './read-decimal';
import type { Layout, ReadingFormat, ReadingOptions } from './reading-format';
import { MAX_RECORD_LINES, RecordFeed } from './record-feed';
import type { RowReader } from './row-reader';
import { type Dialect, sniffDialect } from './sniff-dialect';
import { type Encoding, makeDecoder, sniffEncoding } from './text-encoding';
import { TimeField } from './time-field';

/** Lines whose cells are held at a time: enough to amortise a call of the parser. */
const BATCH_LINES = 512;

/** A readings file whose header has been read. */
export type OpenReadings = {
  format: ReadingFormat;
  layout: Layout;
  /** The lines behind the header, in batches as they arrive. */
  lines: AsyncGenerator<Line[]>;
  close(): Promise<void>;
};

/** Finds out how a file is written and what its columns hold. Refuses what is no readings file at all. */
export async function openReadings(
  source: AsyncIterable<Uint8Array>,
  options: ReadingOptions,
): Promise<OpenReadings> {
  const bytes = await openBytes(source);
  try {
    const encoding = sniffEncoding(bytes.head);
    const head = makeDecoder(encoding)(bytes.head);
    const dialect = sniffDialect(head, bytes.headIsAll);
    const layout = readLayout(dialect.header, dialect.headerLine, options);
    const { delimiter, decimalComma } = dialect;
    const { kind, columns } = layout;
    return {
      format: { kind, delimiter, decimalComma, encoding, compressed: bytes.compressed, columns },
      layout,
      lines: linesBehindHeader(bytes.pieces, encoding, dialect),
      close: bytes.close,
    };
  } catch (error) {
    await bytes.close();
    throw error;
  }
}

async function* linesBehindHeader(
  pieces: AsyncIterable<Uint8Array>,
  encoding: Encoding,
  dialect: Dialect,
): AsyncGenerator<Line[]> {
  const decode = makeDecoder(encoding);
  const splitter = new LineSplitter(dialect.terminator);
  let passed = 0;
  function* behind(texts: string[]) {
    for (let i = Math.max(0, dialect.headerLines - passed); i < texts.length; i += BATCH_LINES)
      yield readLines(texts.slice(i, i + BATCH_LINES), passed + i + 1, dialect.delimiter);
    passed += texts.length;
  }
  for await (const piece of pieces) yield* behind(splitter.push(decode(piece)));
  yield* behind([...splitter.push(decode(null)), ...splitter.end()]);
}

/** What turns the lines of an open file into chunks. */
export function rowMachinery(file: OpenReadings, options: ReadingOptions) {
  const { kind, columns, delimiter, decimalComma } = file.format;
  const timeAt = columns.findIndex((column) => column.use === 'time');
  const time = new TimeField(timeAt, columns[timeAt]!.name.trim(), options);
  const unitsPerLine = new Set(columns.map((column) => column.tag)).size;
  // Lines held back by an open quote come at once when it is given up.
  const builder = new ChunkBuilder(options.knownTags, unitsPerLine * MAX_RECORD_LINES);
  const context = {
    columns,
    decimalSign: decimalComma ? COMMA : POINT,
    time,
    options,
    builder,
    suggest: makeSuggest(),
  };
  const reader: RowReader = kind === 'long' ? new LongRows(context) : new ColumnRows(context);
  return { builder, feed: new RecordFeed({ delimiter, columns, builder, reader }) };
}
