import { bodyBytes } from '@/app/api/body';
import { refuseOtherTypes, refusePacked } from '@/app/api/media-type';
import { AppError } from '@/lib/contract/app-error';

/** Largest fleet taken over HTTP [bytes]: a fleet file of some ten thousand units. */
const MAX_FLEET_BYTES = 2 ** 25;
const SMALLER_FLEET = 'send the units in several files, or use `npx cleanby register FILE`';

const TYPES = [
  'application/json',
  'application/*+json',
  'text/*',
  'application/csv',
  'application/octet-stream',
  'application/vnd.ms-excel',
  'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
];

/** A fleet as it was sent: a fleet file, or a sheet that is yet to be read. Its first bytes tell, not what it is called. */
export async function readFleetBody(
  request: Request,
): Promise<{ document: unknown; sheet: null } | { document: null; sheet: Uint8Array }> {
  refuseOtherTypes(request, TYPES);
  refusePacked(request);
  const pieces: Uint8Array[] = [];
  for await (const piece of bodyBytes(request, MAX_FLEET_BYTES, SMALLER_FLEET)) pieces.push(piece);
  const bytes = Buffer.concat(pieces);
  if (!isJson(request, bytes)) return { document: null, sheet: bytes };
  return { document: parsed(bytes), sheet: null };
}

/** What says it is JSON, or begins like it; nothing at all is broken JSON too. */
function isJson(request: Request, bytes: Buffer): boolean {
  const isSaid = /^application\/(?:[^;]*\+)?json/i.test(request.headers.get('content-type') ?? '');
  const start = bytes
    .subarray(0, 64)
    .toString('utf8')
    .replace(/^\uFEFF/, '')
    .trimStart();
  return isSaid || start === '' || start.startsWith('{') || start.startsWith('[');
}

function parsed(bytes: Buffer): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch (error) {
    const message = `send one JSON document in UTF-8 (${(error as Error).message})`;
    throw new AppError('invalid-input', 'The body is no JSON', [{ field: 'body', message }]);
  }
}
