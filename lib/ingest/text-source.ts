import { LineSplitter } from './line-splitter';
import type { Line } from './read-cells';
import { type Encoding, makeDecoder } from './text-encoding';

/** Lines whose cells are held at a time: enough to amortise a call of the parser. */
const BATCH_LINES = 512;

/** The lines of a text file behind its header, as its bytes and how to read them. */
export type TextSource = {
  /** In an encoding in which ASCII is itself: the bytes of UTF-16 come as UTF-8. */
  pieces(): AsyncGenerator<Uint8Array>;
  terminator: '\n' | '\r';
  /** Lines of the header, passed over. */
  skipped: number;
  /** Text of the bytes of whole lines. */
  decode(bytes: Uint8Array): string;
  read(texts: string[], firstNumber: number): Line[];
};

type TextBytes = {
  pieces: AsyncIterable<Uint8Array>;
  encoding: Encoding;
} & Omit<TextSource, 'pieces' | 'decode'>;

export function textSource({ pieces, encoding, ...how }: TextBytes): TextSource {
  const isWide = encoding === 'utf-16le' || encoding === 'utf-16be';
  return {
    pieces: () => (isWide ? asUtf8(pieces, encoding) : all(pieces)),
    decode: isWide || encoding === 'utf-8' ? decodeUtf8() : makeDecoder(encoding),
    ...how,
  };
}

/** Every line with its cells, in batches as they arrive. */
export async function* linesOf({
  pieces,
  encoding,
  terminator,
  skipped,
  read,
}: TextBytes): AsyncGenerator<Line[]> {
  const decode = makeDecoder(encoding);
  const splitter = new LineSplitter(terminator);
  let passed = 0;
  function* behind(texts: string[]) {
    for (let i = Math.max(0, skipped - passed); i < texts.length; i += BATCH_LINES)
      yield read(texts.slice(i, i + BATCH_LINES), passed + i + 1);
    passed += texts.length;
  }
  for await (const piece of pieces) yield* behind(splitter.push(decode(piece)));
  yield* behind([...splitter.push(decode(null)), ...splitter.end()]);
}

/** Lines begin behind others: a byte-order mark in one is a character like any other. */
function decodeUtf8(): (bytes: Uint8Array) => string {
  const decoder = new TextDecoder('utf-8', { ignoreBOM: true });
  return (bytes) => decoder.decode(bytes);
}

async function* asUtf8(pieces: AsyncIterable<Uint8Array>, encoding: Encoding): AsyncGenerator<Uint8Array> {
  const decode = makeDecoder(encoding);
  for await (const piece of pieces) yield Buffer.from(decode(piece));
  yield Buffer.from(decode(null));
}

async function* all(pieces: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  yield* pieces;
}
