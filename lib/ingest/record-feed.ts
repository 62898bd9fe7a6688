import type { SetAsideReason } from '@/lib/contract/import-report';
import type { ChunkBuilder, RowAt } from './chunk-builder';
import { type Delimiter, type Flaw, type Line, readCells } from './read-cells';
import type { ReadingColumn } from './reading-format';
import type { RowReader } from './row-reader';

/** Lines and characters one record may span by line breaks inside quotes. */
export const MAX_RECORD_LINES = 20;
const MAX_RECORD_CHARACTERS = 65_536;

const FAULTS: Record<Flaw, [reason: SetAsideReason, message: string]> = {
  open: ['quoting-broken', 'a quote is not closed; write a quote inside quotes twice'],
  broken: ['quoting-broken', 'text follows a closing quote; write a quote inside quotes twice'],
  'too-long': ['line-too-long', 'the line is longer than 1 MiB'],
};

/**
 * Gives lines to a row reader as records. A record is a line: a quote left open costs that line and not the rest of the
 * file. Only where a file has columns that are ignored, such as remarks, may one of those hold line breaks.
 */
export class RecordFeed {
  readonly #delimiter: Delimiter;
  readonly #columns: ReadingColumn[];
  readonly #builder: ChunkBuilder;
  readonly #reader: RowReader;
  readonly #mayHoldBreaks: boolean;
  #open: Line[] = [];

  constructor(file: {
    delimiter: Delimiter;
    columns: ReadingColumn[];
    builder: ChunkBuilder;
    reader: RowReader;
  }) {
    this.#delimiter = file.delimiter;
    this.#columns = file.columns;
    this.#builder = file.builder;
    this.#reader = file.reader;
    this.#mayHoldBreaks = file.columns.some((column) => column.use === 'ignored');
  }

  /** Whether a record is open: the next line may belong to it. */
  get isOpen(): boolean {
    return this.#open.length > 0;
  }

  /** Takes the next line. */
  take(line: Line): void {
    if (this.#open.length > 0) this.#takeMore(line);
    else this.#takeLine(line);
  }

  /** Ends the file: a record still open is none. */
  end(): void {
    while (this.#open.length > 0) this.#giveUp();
  }

  #takeLine(line: Line): void {
    const { cells, text } = line;
    if (typeof cells !== 'string') this.#takeRecord(cells, line);
    else if (cells === 'open' && this.#mayHoldBreaks && text.length < MAX_RECORD_CHARACTERS) {
      this.#open.push(line);
    } else this.#refuse(line, ...FAULTS[cells]);
  }

  /** The next line of a record whose quote is open. */
  #takeMore(line: Line): void {
    this.#open.push(line);
    const text = this.#open.map((part) => part.text).join('\n');
    const cells = line.text.includes('"') ? readCells([text], this.#delimiter)[0]! : 'open';
    const isTooLong = this.#open.length >= MAX_RECORD_LINES || text.length > MAX_RECORD_CHARACTERS;
    if (cells === 'open' && !isTooLong) return;
    if (typeof cells === 'string' || !this.#breaksOnlyIgnored(cells)) {
      this.#giveUp();
      return;
    }
    const at = { line: this.#open[0]!.line, text };
    this.#open = [];
    this.#takeRecord(cells, at);
  }

  /** Sets aside the line that opened the quote and takes those after it anew. */
  #giveUp(): void {
    const [first, ...rest] = this.#open;
    this.#open = [];
    this.#refuse(first!, ...FAULTS.open);
    for (const line of rest) this.take(line);
  }

  #breaksOnlyIgnored(cells: string[]): boolean {
    const columns = this.#columns;
    if (cells.length !== columns.length) return false;
    return columns.every((column, i) => column.use === 'ignored' || !cells[i]!.includes('\n'));
  }

  #takeRecord(cells: string[], at: RowAt): void {
    const expected = this.#columns.length;
    // Blank rows are passed over, and separators left at a line's end.
    const lastFilled = cells.findLastIndex((cell) => cell !== '');
    if (lastFilled < 0) return;
    if (cells.length < expected || lastFilled >= expected) {
      this.#refuse(at, 'wrong-number-of-fields', this.#countFault(cells.length));
      return;
    }
    this.#reader.take(cells, at);
    this.#builder.countRow();
  }

  #countFault(found: number): string {
    const expected = this.#columns.length;
    const mayBeCommas = found > expected && this.#delimiter === ',';
    const hint = mayBeCommas ? '; a decimal comma needs quotes, or semicolons between fields' : '';
    return `has ${found} fields, the header has ${expected}${hint}`;
  }

  #refuse(at: RowAt, reason: SetAsideReason, message: string): void {
    this.#builder.setAside(at, reason, null, message);
    this.#builder.countRow();
  }
}
