import { pipeline, Readable } from 'node:stream';
import { createGunzip } from 'node:zlib';
import { AppError } from '@/lib/contract/app-error';

/**
 * Bytes looked at before reading: encoding, delimiter, decimal sign and the whole header are found in them.
 * Four times 64 KiB, so that the header of a plant-wide file of 10,000 columns fits.
 */
export const HEAD_BYTES = 262_144;

export type ByteStream = {
  /** The first bytes after decompression, `HEAD_BYTES` of them or the whole file. */
  head: Uint8Array;
  /** True where `head` is the whole file. */
  headIsAll: boolean;
  compressed: boolean;
  /** All bytes from the start, `head` included. */
  pieces: AsyncGenerator<Uint8Array>;
  /** Lets go of the source; needed where `pieces` is not read to its end. */
  close(): Promise<void>;
};

/** Opens a file's bytes, gunzipped where they begin with gzip's magic number. */
export async function openBytes(source: AsyncIterable<Uint8Array>): Promise<ByteStream> {
  const raw = await peek(source, 2);
  const compressed = raw.head[0] === 0x1f && raw.head[1] === 0x8b;
  if (!compressed) return { ...(await peekOr(raw.pieces, raw.close)), compressed };
  const plain = gunzipped(raw.pieces);
  return { ...(await peekOr(plain, raw.close)), compressed };
}

type Peeked = Omit<ByteStream, 'compressed'>;

async function peekOr(source: AsyncIterable<Uint8Array>, closeSource: () => Promise<void>): Promise<Peeked> {
  try {
    const peeked = await peek(source, HEAD_BYTES);
    const close = async () => {
      await peeked.close();
      await closeSource();
    };
    return { ...peeked, close };
  } catch (error) {
    await closeSource();
    throw error;
  }
}

async function peek(source: AsyncIterable<Uint8Array>, size: number): Promise<Peeked> {
  const iterator = source[Symbol.asyncIterator]();
  const taken: Uint8Array[] = [];
  let length = 0;
  let ended = false;
  while (length < size && !ended) {
    const next = await iterator.next();
    ended = next.done === true;
    if (next.done) break;
    taken.push(next.value);
    length += next.value.length;
  }
  const all = Buffer.concat(taken);
  const pieces = async function* () {
    yield all;
    while (!ended) {
      const next = await iterator.next();
      if (next.done) return;
      yield next.value;
    }
  };
  const close = async () => {
    await iterator.return?.();
  };
  return { head: all.subarray(0, size), headIsAll: all.length <= size && ended, pieces: pieces(), close };
}

/** Readings unpack to 5 to 40 times their size, rows that repeat to 250; gzip made to do harm to 1030. */
const MOST_RATIO = 400;
/** Up to here it may be any ratio [bytes]. */
const RATIO_FROM = 67_108_864;
/** No file of readings unpacks to more [bytes]: a century of minutes of a hundred units. */
const MOST_PLAIN = 68_719_476_736;

async function* gunzipped(source: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  const gunzip = createGunzip({ chunkSize: 65_536 });
  // The callback is required; errors of either side arrive through the loop below.
  pipeline(Readable.from(source), gunzip, () => {});
  let plain = 0;
  try {
    for await (const piece of gunzip as AsyncIterable<Uint8Array>) {
      plain += piece.length;
      refuseBomb(plain, gunzip.bytesWritten);
      yield piece;
    }
  } catch (error) {
    if (!isDamagedGzip(error)) throw error;
    throw new AppError(
      'not-readable',
      'The compressed file is damaged or cut off; copy it again from its source',
      [{ field: 'file', message: 'gzip data damaged or cut off' }],
    );
  }
}

function refuseBomb(plain: number, packed: number): void {
  if (plain <= RATIO_FROM || (plain <= packed * MOST_RATIO && plain <= MOST_PLAIN)) return;
  throw new AppError('too-large', 'The compressed file unpacks to far more than readings do', [
    {
      field: 'file',
      message: 'unpack it and look at it; if it holds readings, send it unpacked or in parts',
    },
  ]);
}

function isDamagedGzip(error: unknown): boolean {
  const code = error instanceof Error && 'code' in error ? error.code : null;
  return typeof code === 'string' && code.startsWith('Z_');
}
