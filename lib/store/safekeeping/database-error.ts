import { AppError } from '@/lib/contract/app-error';
import { MigrationError } from '@/prisma/migration-error';
import { POSTGRES_CAUSES, postgresCode } from './postgres-causes';

/** A journal that several processes can share could not be had where the database lies. */
export class NoSharedJournalError extends Error {
  readonly code = 'SQLITE_NO_WAL';
}

const DISK_FULL =
  'the disk is full, or a quota or a limit on the size of files is reached. What was being written was undone and what ' +
  'was stored before is untouched: make room and try again';
const NOT_WRITABLE =
  'it may not be written or opened. Make the file and its folder writable for the account Cleanby runs under, or name ' +
  'another file in DATABASE_URL';
const LOCKED =
  'another program has it locked. What was being written was undone: wait until that program is done, or stop it, and try again';
const DAMAGED =
  'the file is damaged (npx cleanby verify says where). Stop Cleanby, move the file away with its -wal and -shm, and ' +
  'bring back the last backup with npx cleanby restore FILE';
const NOT_A_DATABASE =
  'the file is not an SQLite database. Name the right file in DATABASE_URL, or bring back a backup with npx cleanby restore FILE';
const NO_WAL =
  'its folder cannot hold a journal that several programs share, as on most network drives. Put the database on a disk of ' +
  'this machine';
const FAULTY_DISK =
  'reading or writing failed on the way to the disk. What was being written was undone: look at the disk, run npx cleanby ' +
  'verify, and try again';

/** The first that fits holds; codes of SQLite and of the operating system. */
const CAUSES: readonly [codes: RegExp, cause: string][] = [
  [/^SQLITE_FULL|^SQLITE_IOERR_(WRITE|FSYNC|TRUNCATE)|^ENOSPC$|^EDQUOT$|^EFBIG$/, DISK_FULL],
  [/^SQLITE_(CORRUPT|IOERR_(CORRUPTFS|DATA|SHORT_READ))/, DAMAGED],
  [/^SQLITE_NOTADB/, NOT_A_DATABASE],
  [/^SQLITE_NO_WAL|^SQLITE_IOERR_(SHM|LOCK|UNLOCK|RDLOCK|CHECKRESERVEDLOCK)/, NO_WAL],
  [/^SQLITE_(BUSY|LOCKED|PROTOCOL)|^ETXTBSY$/, LOCKED],
  [/^SQLITE_(READONLY|CANTOPEN|PERM|AUTH)|^(EACCES|EPERM|EROFS|ENOENT|ENOTDIR|EISDIR)$/, NOT_WRITABLE],
  [/^SQLITE_IOERR|^EIO$/, FAULTY_DISK],
];

/**
 * What a database, Prisma or the file system refuses, as an error a user can act on: which database, cause and remedy. Null for everything
 * else, a mistake of ours among it.
 */
export function databaseError(error: unknown, name: string): AppError | null {
  if (error instanceof AppError) return error;
  if (error instanceof MigrationError) return unusable(name, error.message);
  const { code, message } = codeOf(error) ?? {};
  const cause = [...CAUSES, ...POSTGRES_CAUSES].find(
    ([codes]) => code !== undefined && codes.test(code),
  )?.[1];
  return cause === undefined ? null : unusable(name, `${cause} (${message})`);
}

/** Like `databaseError`, only for what comes from the database itself or through Prisma: other files have their own messages. */
export function errorOfDatabase(error: unknown, name: string): AppError | null {
  const isFileError = !(error instanceof AppError) && /^E[A-Z]/.test(codeOf(error)?.code ?? '');
  return isFileError ? null : databaseError(error, name);
}

function unusable(name: string, cause: string): AppError {
  return new AppError('database-unusable', `The database ${name} cannot be used: ${cause}`);
}

/** The database's or the system's own code, however deep Prisma has wrapped it. */
function codeOf(error: unknown): { code: string; message: string } | null {
  if (error === null || typeof error !== 'object') return null;
  const { code, message, cause, meta, originalCode, originalMessage } = error as Record<string, unknown>;
  const adapter = (meta as { driverAdapterError?: unknown } | undefined)?.driverAdapterError;
  if (typeof originalCode === 'string') return { code: originalCode, message: String(originalMessage) };
  if (typeof code === 'string' && /^(SQLITE_|E[A-Z]+$)/.test(code)) return { code, message: String(message) };
  return postgresCode(error) ?? codeOf(adapter) ?? codeOf(cause);
}
