import { createHash } from 'node:crypto';
import { constants } from 'node:fs';
import { open } from 'node:fs/promises';

/** A file that was written to while it was read: what was read of it counts for nothing. */
export class ChangedWhileReadError extends Error {}

/** Large pieces: a network share answers slowly. */
const PIECE_BYTES = 2 ** 18;

/** SHA-256 of a file's bytes, in hexadecimal. */
export async function hashOfFile(path: string, signal: AbortSignal): Promise<string> {
  const digest = createHash('sha256');
  for await (const piece of pieces(path, signal)) digest.update(piece);
  return digest.digest('hex');
}

/**
 * The bytes of a file, which must be those of the hash.
 *
 * @throws ChangedWhileReadError at their end where they are not
 */
export async function* bytesOfHash(
  path: string,
  hash: string,
  signal: AbortSignal,
): AsyncGenerator<Uint8Array> {
  const digest = createHash('sha256');
  for await (const piece of pieces(path, signal)) {
    digest.update(piece);
    yield piece;
  }
  if (digest.digest('hex') !== hash) throw new ChangedWhileReadError();
}

async function* pieces(path: string, signal: AbortSignal): AsyncGenerator<Uint8Array> {
  // A file that was changed for a link since it was listed is not followed.
  const file = await open(path, constants.O_RDONLY | constants.O_NOFOLLOW);
  try {
    for await (const piece of file.createReadStream({ highWaterMark: PIECE_BYTES, autoClose: false })) {
      signal.throwIfAborted();
      yield piece as Uint8Array;
    }
  } finally {
    await file.close();
  }
}
