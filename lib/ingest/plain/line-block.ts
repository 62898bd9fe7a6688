import { CUT_CHARACTERS } from '../line-splitter';

/** Bytes that are enough for the characters kept of a line that is too long: UTF-8 takes three for one at most. */
const MOST_HELD = 3 * CUT_CHARACTERS;

/**
 * The bytes of a file that are in hand, cut where lines end. The block is written over again and again, so that reading
 * allocates nothing; what is kept of it must be copied.
 */
export class LineBlock {
  bytes = new Uint8Array();
  /** Where the next line begins. */
  at = 0;
  /** Behind the last line that is here whole, with its terminator. */
  complete = 0;
  readonly terminator: number;
  #filled = 0;
  #isCut = false;

  constructor(terminator: '\n' | '\r') {
    this.terminator = terminator.charCodeAt(0);
  }

  /** Takes the next bytes, once every whole line has been read: of a line that is too long no more than is kept of it. */
  push(piece: Uint8Array): void {
    const from = this.#isCut ? piece.indexOf(this.terminator) : 0;
    if (from < 0) return;
    this.#isCut = false;
    this.#append(from === 0 ? piece : piece.subarray(from));
    if (this.#filled - this.complete <= MOST_HELD) return;
    this.#filled = this.complete + MOST_HELD;
    this.#isCut = true;
  }

  /** Ends the file: what is left is its last line. */
  end(): void {
    if (this.#filled > this.complete) this.#append(Uint8Array.of(this.terminator));
  }

  #append(piece: Uint8Array): void {
    this.#makeRoom(piece.length);
    this.bytes.set(piece, this.#filled);
    const last = piece.lastIndexOf(this.terminator);
    if (last >= 0) this.complete = this.#filled + last + 1;
    this.#filled += piece.length;
  }

  #makeRoom(length: number): void {
    if (this.at > 0) {
      this.bytes.copyWithin(0, this.at, this.#filled);
      this.complete -= this.at;
      this.#filled -= this.at;
      this.at = 0;
    }
    if (this.#filled + length <= this.bytes.length) return;
    const larger = new Uint8Array(Math.max(this.bytes.length * 2, this.#filled + length));
    larger.set(this.bytes.subarray(0, this.#filled));
    this.bytes = larger;
  }
}
