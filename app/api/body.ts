import { AppError } from '@/lib/contract/app-error';
import { READING_TYPES, refuseOtherTypes, refusePacked } from './media-type';

/** Largest readings file taken over HTTP [bytes]: three years of minutes of a dozen units. Larger ones by `cleanby import`. */
export const MAX_FILE_BYTES = 2 ** 30;
/** Largest JSON body [bytes]: a fleet file of some ten thousand units. */
const MAX_JSON_BYTES = 2 ** 25;

const MEBIBYTE = 2 ** 20;

const SMALLER_READINGS = 'split the file, compress it with gzip, or use `npx cleanby import FILE`';

/**
 * The body as bytes, a piece at a time, as fast as they are asked for and no more than `most` of them; `remedy` says what to do
 * about a larger one.
 */
export async function* bodyBytes(
  request: Request,
  most = MAX_FILE_BYTES,
  remedy = SMALLER_READINGS,
): AsyncGenerator<Uint8Array> {
  if (Number(request.headers.get('content-length') ?? 0) > most) throw tooLarge(most, remedy);
  if (request.body === null) return;
  const reader = request.body.getReader();
  let taken = 0;
  try {
    for (;;) {
      const { done, value } = await reader.read().catch(brokenOff);
      if (done) return;
      taken += value.length;
      if (taken > most) throw tooLarge(most, remedy);
      yield value;
    }
  } finally {
    await reader.cancel().catch(() => {});
  }
}

/** The body as a file of readings; gzip is told by its first bytes, so that it may be the file's or the transfer's. */
export function readingsBody(request: Request): AsyncGenerator<Uint8Array> {
  refuseOtherTypes(request, READING_TYPES);
  refusePacked(request, ['gzip']);
  return bodyBytes(request);
}

function brokenOff(): never {
  throw new AppError('not-readable', 'What was sent broke off before its end', [
    { field: 'body', message: 'send it again; nothing was taken in' },
  ]);
}

function tooLarge(most: number, remedy: string): AppError {
  return new AppError('too-large', `At most ${most / MEBIBYTE} MiB are taken at once`, [
    { field: 'body', message: remedy },
  ]);
}

/** A JSON body as it came: the work behind the route checks it. */
export async function readJson(request: Request): Promise<unknown> {
  refuseOtherTypes(request, ['application/json', 'application/*+json']);
  refusePacked(request);
  const pieces: Uint8Array[] = [];
  for await (const piece of bodyBytes(request, MAX_JSON_BYTES)) pieces.push(piece);
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(Buffer.concat(pieces)));
  } catch (error) {
    const message = `send one JSON document in UTF-8 (${(error as Error).message})`;
    throw new AppError('invalid-input', 'The body is no JSON', [{ field: 'body', message }]);
  }
}
