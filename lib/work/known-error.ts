import { AppError } from '@/lib/contract/app-error';
import { databaseName } from '@/lib/store/database-path';
import { errorOfDatabase } from '@/lib/store/safekeeping/database-error';
import { addressed } from './back-up';

/** An error a user can act on: one of ours as it is, one of the database with cause and remedy; null for a fault of ours. */
export function knownError(error: unknown): AppError | null {
  return error instanceof AppError ? error : errorOfDatabase(error, databaseName(addressed()));
}
