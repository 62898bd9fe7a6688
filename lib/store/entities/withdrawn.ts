import type { Withdrawn } from '@/lib/contract/withdrawal';
import type { Author } from './change';

/** Columns of a row that may be withdrawn: it stays, with who withdrew it and why. */
type Columns = { withdrawnAt: Date | null; withdrawnBy: string | null; withdrawnNote: string | null };

/** Null while the row holds. */
export function withdrawnOf({ withdrawnAt, withdrawnBy, withdrawnNote }: Columns): Withdrawn | null {
  if (withdrawnAt === null) return null;
  return { at: withdrawnAt.getTime(), by: withdrawnBy ?? '', note: withdrawnNote ?? '' };
}

export function withdrawnColumns({ by, at }: Author, note: string): Columns {
  return { withdrawnAt: new Date(at), withdrawnBy: by, withdrawnNote: note };
}
