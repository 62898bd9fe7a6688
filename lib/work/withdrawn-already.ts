import { AppError } from '@/lib/contract/app-error';
import type { Withdrawn } from '@/lib/contract/withdrawal';
import { formatInstant } from '@/lib/report/format/time';

/** That somebody else has taken a thing back already. */
export function withdrawnAlready(what: string, { by, at, note }: Withdrawn, timeZone: string): AppError {
  return new AppError(
    'conflict',
    `${what} no longer holds: withdrawn by ${by}, ${formatInstant(at, timeZone)}`,
    [{ field: 'id', message: `“${note}”. There is nothing left to withdraw` }],
  );
}
