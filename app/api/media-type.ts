import { AppError } from '@/lib/contract/app-error';

/** What readings come as: programs and browsers name one and the same file very differently. */
export const READING_TYPES = [
  'text/*',
  'application/x-ndjson',
  'application/ndjson',
  'application/jsonl',
  'application/json',
  'application/csv',
  'application/gzip',
  'application/x-gzip',
  'application/octet-stream',
  'application/vnd.ms-excel',
  'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
];

/**
 * Refuses a body that says it is something else than what is taken; one that says nothing is looked at.
 *
 * @throws AppError 'unsupported-type'
 */
export function refuseOtherTypes(request: Request, taken: string[]): void {
  const given = request.headers.get('content-type')?.split(';')[0]?.trim().toLowerCase() ?? '';
  if (given === '' || taken.some((type) => fits(type, given))) return;
  throw new AppError('unsupported-type', `"${given.slice(0, 80)}" is not taken here`, [
    { field: 'Content-Type', message: `send the document itself as the body, as ${taken.join(', ')}` },
  ]);
}

/** Refuses a packed body where none is unpacked. @throws AppError 'unsupported-type' */
export function refusePacked(request: Request, taken: string[] = []): void {
  const coding = request.headers.get('content-encoding')?.trim().toLowerCase() ?? '';
  if (coding === '' || coding === 'identity' || taken.includes(coding)) return;
  const way = taken.length === 0 ? 'as it is' : `as it is, or with ${taken.join(' or ')}`;
  throw new AppError('unsupported-type', `A body packed with "${coding.slice(0, 40)}" is not taken here`, [
    { field: 'Content-Encoding', message: `send it ${way}` },
  ]);
}

/** `*` stands for anything within a type: `text/*`, `application/*+json`. */
function fits(type: string, given: string): boolean {
  const [before, behind] = type.split('*') as [string, string | undefined];
  if (behind === undefined) return type === given;
  return given.startsWith(before) && given.endsWith(behind) && given.length > before.length + behind.length;
}
