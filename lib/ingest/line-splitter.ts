/** Longest line read; longer ones are cut to a little more than this, so that a line of 1 GB takes no more memory. */
export const MAX_LINE_CHARACTERS = 1_048_576;

/** Held of a line that is too long: one more than fits with a carriage return. */
export const CUT_CHARACTERS = MAX_LINE_CHARACTERS + 2;

/** Cuts a stream of text into lines, wherever the pieces end. */
export class LineSplitter {
  readonly #terminator: '\n' | '\r';
  #held: string[] = [];
  #heldLength = 0;

  constructor(terminator: '\n' | '\r') {
    this.#terminator = terminator;
  }

  /** The lines that end in this piece; one longer than `MAX_LINE_CHARACTERS` is cut but still longer than that. */
  push(text: string): string[] {
    const lines: string[] = [];
    let from = 0;
    for (let at = text.indexOf(this.#terminator); at >= 0; at = text.indexOf(this.#terminator, from)) {
      this.#hold(text, from, at);
      lines.push(this.#finish());
      from = at + 1;
    }
    this.#hold(text, from, text.length);
    return lines;
  }

  /** What is left when the text has ended: one line, or none. */
  end(): string[] {
    return this.#heldLength === 0 ? [] : [this.#finish()];
  }

  #hold(text: string, from: number, to: number): void {
    const room = CUT_CHARACTERS - this.#heldLength;
    if (to <= from || room <= 0) return;
    const part = text.slice(from, Math.min(to, from + room));
    this.#held.push(part);
    this.#heldLength += part.length;
  }

  #finish(): string {
    const line = this.#held.length === 1 ? this.#held[0]! : this.#held.join('');
    this.#held = [];
    this.#heldLength = 0;
    return line.length < CUT_CHARACTERS && line.endsWith('\r') ? line.slice(0, -1) : line;
  }
}
