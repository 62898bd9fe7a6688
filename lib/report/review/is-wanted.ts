import { NOBODY, type ReviewLine, type ReviewQuery } from '@/lib/contract/review';

/** Whether a line passes the reader's filter. */
export function isWanted(line: ReviewLine, { show, assigned }: ReviewQuery): boolean {
  if (show === 'unseen' && line.isSeen) return false;
  if (assigned === undefined || assigned === '') return true;
  return assigned === NOBODY ? line.assignedTo === null : line.assignedTo === assigned;
}
