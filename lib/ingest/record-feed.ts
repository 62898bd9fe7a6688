import type { ChunkBuilder, RowAt } from './chunk-builder';
import { MAX_LINE_CHARACTERS } from './line-splitter';
import type { ReadingColumn } from './reading-format';
import type { RowReader } from './row-reader';
import { type Delimiter, type Fields, makeFields, splitFields, type Wholeness } from './split-fields';

/** Lines and characters one record may span by line breaks inside quotes. */
export const MAX_RECORD_LINES = 20;
const MAX_RECORD_CHARACTERS = 65_536;

/**
 * Gives lines to a row reader as records. A record is a line: a quote left open costs that line and not the rest of the
 * file. Only where a file has columns that are ignored, such as remarks, may one of those hold line breaks.
 */
export class RecordFeed {
  readonly #delimiter: Delimiter;
  readonly #columns: ReadingColumn[];
  readonly #builder: ChunkBuilder;
  readonly #reader: RowReader;
  readonly #fields: Fields = makeFields();
  readonly #at: RowAt = { line: 0, text: '' };
  readonly #mayHoldBreaks: boolean;
  #open: string[] = [];

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

  /** Takes the line with this number. */
  take(line: string, number: number): void {
    if (this.#open.length > 0) this.#takeMore(line, number);
    else this.#takeLine(line, number);
  }

  /** Ends the file: a record still open is none. */
  end(lastNumber: number): void {
    while (this.#open.length > 0) this.#giveUp(lastNumber);
  }

  #takeLine(line: string, number: number): void {
    this.#at.line = number;
    this.#at.text = line;
    if (line.length > MAX_LINE_CHARACTERS) {
      this.#refuse('line-too-long', 'the line is longer than 1 MiB');
      return;
    }
    const wholeness = splitFields(line, this.#delimiter, this.#fields);
    if (wholeness === 'whole') this.#takeRecord();
    else if (wholeness === 'open' && this.#mayHoldBreaks && line.length < MAX_RECORD_CHARACTERS) {
      this.#open.push(line);
    } else this.#refuseQuoting(wholeness);
  }

  /** The next line of a record whose quote is open. */
  #takeMore(line: string, number: number): void {
    this.#open.push(line);
    const text = this.#open.join('\n');
    const wholeness = splitFields(text, this.#delimiter, this.#fields);
    const isTooLong = this.#open.length >= MAX_RECORD_LINES || text.length > MAX_RECORD_CHARACTERS;
    if (wholeness === 'open' && !isTooLong) return;
    if (wholeness !== 'whole' || !this.#breaksOnlyIgnored()) {
      this.#giveUp(number);
      return;
    }
    this.#at.line = number - this.#open.length + 1;
    this.#at.text = text;
    this.#open = [];
    this.#takeRecord();
  }

  /** Sets aside the line that opened the quote and takes those after it anew. */
  #giveUp(lastNumber: number): void {
    const [first, ...rest] = this.#open;
    const number = lastNumber - rest.length;
    this.#open = [];
    this.#at.line = number;
    this.#at.text = first!;
    this.#refuseQuoting('open');
    for (const [i, line] of rest.entries()) this.take(line, number + 1 + i);
  }

  #breaksOnlyIgnored(): boolean {
    const { text, starts, ends, count } = this.#fields;
    if (count !== this.#columns.length) return false;
    return this.#columns.every(
      (column, i) => column.use === 'ignored' || !text.slice(starts[i], ends[i]).includes('\n'),
    );
  }

  #takeRecord(): void {
    const fields = this.#fields;
    const expected = this.#columns.length;
    if (fields.starts[0] === fields.ends[0] && isEmptyFrom(fields, 0)) return;
    if (fields.count < expected || !isEmptyFrom(fields, expected)) {
      this.#refuse('wrong-number-of-fields', this.#countFault(fields.count));
      return;
    }
    this.#reader.take(fields, this.#at);
    this.#builder.countRow();
  }

  #countFault(found: number): string {
    const expected = this.#columns.length;
    const mayBeCommas = found > expected && this.#delimiter === ',';
    const hint = mayBeCommas ? '; a decimal comma needs quotes, or semicolons between fields' : '';
    return `has ${found} fields, the header has ${expected}${hint}`;
  }

  #refuseQuoting(wholeness: Wholeness): void {
    const fault = wholeness === 'open' ? 'a quote is not closed' : 'text follows a closing quote';
    this.#refuse('quoting-broken', `${fault}; write a quote inside quotes twice`);
  }

  #refuse(reason: 'quoting-broken' | 'line-too-long' | 'wrong-number-of-fields', message: string): void {
    this.#builder.setAside(this.#at, reason, null, message);
    this.#builder.countRow();
  }
}

/** Whether all fields from one on are empty: a blank row, or separators left at a line's end. */
function isEmptyFrom(fields: Fields, from: number): boolean {
  for (let i = from; i < fields.count; i++) if (fields.starts[i] !== fields.ends[i]) return false;
  return true;
}
