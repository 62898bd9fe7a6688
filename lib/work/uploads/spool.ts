import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { type FileHandle, open, rm } from 'node:fs/promises';
import { AppError } from '@/lib/contract/app-error';
import { newUploadPath } from './upload-folder';

/** Pieces that are read at a time [bytes]. */
const PIECE_BYTES = 2 ** 18;

/** An upload that is wholly here. */
export type Spooled = {
  bytes: number;
  /** SHA-256 of the bytes as they came, in hexadecimal. */
  hash: string;
  pieces(): AsyncIterable<Uint8Array>;
  remove(): Promise<void>;
};

/**
 * Writes what comes in, however slowly, to a file of its own: whoever then reads it waits for nobody. Takes a piece when the one
 * before is on the disk.
 *
 * @throws AppError 'database-unusable' where it cannot be kept
 */
export async function spool(source: AsyncIterable<Uint8Array>, folder: string): Promise<Spooled> {
  const path = await newUploadPath(folder).catch(notKept);
  const remove = () => rm(/* turbopackIgnore: true */ path, { force: true });
  try {
    const file = await open(/* turbopackIgnore: true */ path, 'wx', 0o600).catch(notKept);
    try {
      return { ...(await fill(file, source)), pieces: () => pieces(path), remove };
    } finally {
      await file.close();
    }
  } catch (error) {
    await remove();
    throw error;
  }
}

async function fill(file: FileHandle, source: AsyncIterable<Uint8Array>) {
  const hash = createHash('sha256');
  let bytes = 0;
  for await (const piece of source) {
    hash.update(piece);
    bytes += piece.length;
    await file.writeFile(piece).catch(notKept);
  }
  return { bytes, hash: hash.digest('hex') };
}

function pieces(path: string): AsyncIterable<Uint8Array> {
  return createReadStream(/* turbopackIgnore: true */ path, { highWaterMark: PIECE_BYTES });
}

const CAUSES: Record<string, string> = {
  ENOSPC: 'its disk is full',
  EDQUOT: 'its share of the disk is used up',
  EFBIG: 'the system allows no file of that size',
  EACCES: 'the folder of uploads beside the database may not be written',
  EPERM: 'the folder of uploads beside the database may not be written',
  EROFS: 'the disk of the database may not be written',
  ENOTDIR: 'there is a file where the folder of uploads belongs',
  EEXIST: 'there is a file where the folder of uploads belongs',
};

/** Why an upload cannot be kept, for whoever sends it: the server's folders are none of their business. */
export function notKept(error: NodeJS.ErrnoException): never {
  const cause = CAUSES[error.code ?? ''];
  if (cause === undefined) throw error;
  throw new AppError(
    'database-unusable',
    `The server cannot keep the upload: ${cause}. Nothing was taken in`,
    [{ field: 'body', message: 'whoever runs the server has to make room there; then send it again' }],
  );
}
