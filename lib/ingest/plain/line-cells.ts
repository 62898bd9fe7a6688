const [BLANK, QUOTE, PLUS, COMMA, MINUS, POINT, ZERO, LETTER_E] = [32, 34, 43, 44, 45, 46, 48, 101];
const POWERS_OF_TEN = Float64Array.from({ length: 16 }, (_, power) => 10 ** power);
/** Digits that a double holds exactly whatever they are. */
const EXACT_DIGITS = 15;
/** Characters of a number that is read here; nobody measures so finely. */
const MOST_CHARACTERS = 60;
/** More than is measured in any unit, and far from where a conversion to SI would overflow. */
const MOST_VALUE = 1e200;

/** What a cell is read as; one that is skipped may hold anything. */
export type CellKind = 'number' | 'text' | 'skipped';
/** How cells are kept apart and numbers written, as character codes. */
type CellSigns = { delimiter: number; decimalSign: number };

/**
 * Takes a line apart by its bytes where every cell is plain: without quotes or between two of them, numbers in digits, the
 * header's number of cells. Any other line is left to the parser, which knows what may be wrong with it.
 */
export class LineCells {
  /** Numbers by field; NaN where the cell is empty. */
  readonly values: Float64Array;
  /** Where texts begin and end by field, without blanks around them. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  bytes: Uint8Array = new Uint8Array();
  readonly #kinds: readonly CellKind[];
  readonly #delimiter: number;
  readonly #decimalSign: number;
  /** The decimal sign outside quotes: none where it is the delimiter as well. */
  readonly #bareDecimalSign: number;
  #end = 0;

  constructor(kinds: readonly CellKind[], { delimiter, decimalSign }: CellSigns) {
    this.values = new Float64Array(kinds.length);
    this.from = new Int32Array(kinds.length);
    this.to = new Int32Array(kinds.length);
    this.#kinds = kinds;
    this.#delimiter = delimiter;
    this.#decimalSign = decimalSign;
    this.#bareDecimalSign = decimalSign === delimiter ? -1 : decimalSign;
  }

  /**
   * Reads the cells of the line between two places.
   *
   * @param end a byte stands there that is in no cell: the line's terminator
   * @returns false where the line is not plain; what was read of it means nothing then
   */
  read(bytes: Uint8Array, begin: number, end: number): boolean {
    const kinds = this.#kinds;
    this.bytes = bytes;
    this.#end = end;
    let at = begin;
    for (let field = 0; field < kinds.length; field++) {
      if (field > 0) {
        if (at >= end) return false;
        at++;
      }
      const kind = kinds[field];
      if (kind === 'number') at = this.#number(at, field);
      else if (kind === 'text') at = this.#text(at, field);
      else at = this.#skip(at);
      if (at < 0) return false;
    }
    return this.#isBlankFrom(at);
  }

  /** Returns where the cell ends; -1 where it holds anything but a number. */
  #number(begin: number, field: number): number {
    const { bytes } = this;
    const isQuoted = bytes[begin] === QUOTE;
    const decimalSign = isQuoted ? this.#decimalSign : this.#bareDecimalSign;
    let at = isQuoted ? begin + 1 : begin;
    while (bytes[at] === BLANK) at++;
    if (isQuoted ? bytes[at] === QUOTE : this.#isEnd(at)) {
      this.values[field] = Number.NaN;
      return this.#cellEnd(at, isQuoted);
    }
    const start = at;
    if (bytes[at] === MINUS || bytes[at] === PLUS) at++;
    const first = at;
    let mantissa = 0;
    for (let digit = bytes[at]! - ZERO; digit >= 0 && digit <= 9; digit = bytes[++at]! - ZERO)
      mantissa = mantissa * 10 + digit;
    let digits = at - first;
    let decimals = 0;
    if (bytes[at] === decimalSign) {
      const point = ++at;
      for (let digit = bytes[at]! - ZERO; digit >= 0 && digit <= 9; digit = bytes[++at]! - ZERO)
        mantissa = mantissa * 10 + digit;
      decimals = at - point;
      digits += decimals;
    }
    if (digits === 0) return -1;
    if (digits > EXACT_DIGITS || (bytes[at]! | BLANK) === LETTER_E) {
      at = this.#longNumber(start, at, field);
      return at < 0 ? at : this.#cellEnd(at, isQuoted);
    }
    // Both are exact doubles, so that one division rounds as `Number` does.
    const size = decimals === 0 ? mantissa : mantissa / POWERS_OF_TEN[decimals]!;
    this.values[field] = bytes[start] === MINUS ? -size : size;
    return this.#cellEnd(at, isQuoted);
  }

  /** A number of more digits than are exact, or with an exponent, whose digits have been passed; returns where it ends. */
  #longNumber(start: number, behindDigits: number, field: number): number {
    const { bytes } = this;
    let at = behindDigits;
    if ((bytes[at]! | BLANK) === LETTER_E) {
      at++;
      if (bytes[at] === MINUS || bytes[at] === PLUS) at++;
      const first = at;
      while (bytes[at]! >= ZERO && bytes[at]! <= ZERO + 9) at++;
      if (at === first) return -1;
    }
    if (at - start > MOST_CHARACTERS) return -1;
    let text = '';
    for (let i = start; i < at; i++) text += String.fromCharCode(bytes[i] === COMMA ? POINT : bytes[i]!);
    const value = Number(text);
    if (!(Math.abs(value) < MOST_VALUE)) return -1;
    this.values[field] = value;
    return at;
  }

  /** Returns where the cell ends; -1 where it has a quote in it or a control character, such as a tab around its text. */
  #text(begin: number, field: number): number {
    const { bytes } = this;
    const isQuoted = bytes[begin] === QUOTE;
    const [stop, end] = [isQuoted ? QUOTE : this.#delimiter, this.#end];
    let at = isQuoted ? begin + 1 : begin;
    while (bytes[at] === BLANK) at++;
    this.from[field] = at;
    for (; at < end && bytes[at] !== stop; at++) {
      if (bytes[at]! < BLANK || bytes[at] === QUOTE) return -1;
    }
    let to = at;
    while (to > this.from[field]! && bytes[to - 1] === BLANK) to--;
    this.to[field] = to;
    return this.#cellEnd(at, isQuoted);
  }

  #skip(begin: number): number {
    const { bytes } = this;
    const isQuoted = bytes[begin] === QUOTE;
    const [stop, end] = [isQuoted ? QUOTE : this.#delimiter, this.#end];
    let at = isQuoted ? begin + 1 : begin;
    for (; at < end && bytes[at] !== stop; at++) if (bytes[at] === QUOTE) return -1;
    return this.#cellEnd(at, isQuoted);
  }

  /** The delimiter or line's end behind a cell's text; -1 where something else comes, such as a second quote. */
  #cellEnd(begin: number, isQuoted: boolean): number {
    let at = begin;
    while (this.bytes[at] === BLANK) at++;
    if (isQuoted && this.bytes[at++] !== QUOTE) return -1;
    return this.#isEnd(at) ? at : -1;
  }

  /** Delimiters and blanks left at a line's end are passed over. */
  #isBlankFrom(begin: number): boolean {
    let at = begin;
    while (at < this.#end && (this.bytes[at] === this.#delimiter || this.bytes[at] === BLANK)) at++;
    return at === this.#end;
  }

  #isEnd(at: number): boolean {
    return at === this.#end || this.bytes[at] === this.#delimiter;
  }
}
