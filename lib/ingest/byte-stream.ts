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

async function* gunzipped(source: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  const gunzip = createGunzip({ chunkSize: 65_536 });
  // The callback is required; errors of either side arrive through the loop below.
  pipeline(Readable.from(source), gunzip, () => {});
  try {
    yield* gunzip;
  } catch (error) {
    if (!isDamagedGzip(error)) throw error;
    throw new AppError(
      'not-readable',
      'The compressed file is damaged or cut off; copy it again from its source',
      [{ field: 'file', message: 'gzip data damaged or cut off' }],
    );
  }
}

function isDamagedGzip(error: unknown): boolean {
  const code = error instanceof Error && 'code' in error ? error.code : null;
  return typeof code === 'string' && code.startsWith('Z_');
}
