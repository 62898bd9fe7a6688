import type { ChunkBuilder } from '../chunk-builder';
import { CUT_CHARACTERS, MAX_LINE_CHARACTERS } from '../line-splitter';
import type { Line } from '../read-cells';
import type { RecordFeed } from '../record-feed';
import type { LineBlock } from './line-block';
import type { PlainRow } from './plain-row';

const CARRIAGE_RETURN = 13;
/** Lines left to the parser at a time: few where a line that is not plain is rare, many where it is not. */
const RUN = { least: 8, most: 512 };
/** Plain lines in a row after which one that is not is rare again. */
const RARE = 64;

type ByteLinesFile = {
  block: LineBlock;
  /** Lines of the header, passed over. */
  skipped: number;
  plain: PlainRow;
  /** Text of the bytes of lines. */
  decode(bytes: Uint8Array): string;
  /** The cells of lines that are not plain. */
  read(texts: string[], firstNumber: number): Line[];
  feed: RecordFeed;
  builder: ChunkBuilder;
};

/**
 * Gives each line of a file to its plain row, and those that are not plain to the parser and the feed of records, in the
 * file's order: the chunks are the same as if the parser had read every line.
 */
export class ByteLines {
  readonly #file: ByteLinesFile;
  /** Number of the line that begins where the block stands. */
  #number = 1;
  #run = RUN.least;
  /** Lines with cells that wait to be taken. */
  #waiting: Line[] = [];
  #taken = 0;

  constructor(file: ByteLinesFile) {
    this.#file = file;
  }

  /** Reads on until a chunk is full; false where the block has no whole line left. */
  fillChunk(): boolean {
    const { block, builder, feed } = this.#file;
    while (!builder.isFull) {
      if (this.#taken < this.#waiting.length) feed.take(this.#waiting[this.#taken++]!);
      else if (block.at >= block.complete) return false;
      else if (feed.isOpen || !this.#takePlain()) this.#parse();
    }
    return true;
  }

  /** Takes plain lines; false where the first one is not. */
  #takePlain(): boolean {
    const { block, builder, plain, skipped } = this.#file;
    const { bytes, complete, terminator } = block;
    const begin = this.#number;
    const line = { from: block.at, end: 0, number: begin };
    while (line.from < complete && !builder.isFull) {
      const next = bytes.indexOf(terminator, line.from);
      line.end = next > line.from && bytes[next - 1] === CARRIAGE_RETURN ? next - 1 : next;
      // Blank lines are passed over as well.
      const isPassed = line.number <= skipped || line.end === line.from;
      if (!isPassed && (line.end - line.from > MAX_LINE_CHARACTERS || !plain.take(bytes, line))) break;
      line.from = next + 1;
      line.number++;
    }
    block.at = line.from;
    this.#number = line.number;
    if (line.number - begin >= RARE) this.#run = RUN.least;
    return line.number > begin;
  }

  /** Has the parser read the next lines. */
  #parse(): void {
    const { block, decode, read } = this.#file;
    const texts: string[] = [];
    const first = this.#number;
    while (texts.length < this.#run && block.at < block.complete) {
      const next = block.bytes.indexOf(block.terminator, block.at);
      texts.push(lineText(decode(block.bytes.subarray(block.at, next))));
      block.at = next + 1;
    }
    this.#number += texts.length;
    this.#run = Math.min(this.#run * 2, RUN.most);
    this.#waiting = read(texts, first);
    this.#taken = 0;
  }
}

/** A line without its carriage return; one that is too long is cut, but still longer than the longest that is read. */
function lineText(text: string): string {
  if (text.length >= CUT_CHARACTERS) return text.slice(0, CUT_CHARACTERS);
  return text.endsWith('\r') ? text.slice(0, -1) : text;
}
