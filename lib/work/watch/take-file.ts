import { AppError } from '@/lib/contract/app-error';
import type { ImportReport } from '@/lib/contract/import-report';
import type { Mapping } from '@/lib/contract/mapping';
import {
  findBatchOfContent,
  findState,
  noteState,
  type StoredWatchedFile,
} from '@/lib/store/entities/watched-files';
import type { Context } from '../context';
import { importReadings } from '../import-readings';
import { whyNothingTaken } from '../nothing-taken';
import { bytesOfHash, hashOfFile } from './file-bytes';
import type { FolderFile } from './list-folder';

/** With what the files of a folder are read. */
export type Reading = {
  folder: string;
  mapping: Mapping | null;
  mappingName: string | null;
  /** When the mapping was last changed [ms]: what was refused before is tried again. */
  mappingChangedAt: number;
  timeZone: string | null;
};

export type FileOutcome =
  | { kind: 'taken'; report: ImportReport }
  /** Its content came in before, by this watch before it was stopped or by another way. */
  | { kind: 'met-before'; batch: number }
  | { kind: 'unchanged' }
  | { kind: 'refused'; refusal: string };

/** Errors that are the file's own: it is tried again when it changes. All others are tried again at the next look. */
const FAULTS_OF_FILES = new Set(['not-readable', 'invalid-input', 'too-large']);
const MOST_REFUSAL = 2000;

/**
 * Takes a file of a watched folder, as one batch, unless its content was taken before. The batch is kept with the content's hash
 * in one transaction: a process killed behind it finds that out and only notes the file.
 *
 * @throws what keeps the file from being read now, ChangedWhileReadError among it
 */
export async function takeFile(
  context: Context,
  file: FolderFile,
  { reading, signal }: { reading: Reading; signal: AbortSignal },
): Promise<FileOutcome> {
  const { entities } = context.store;
  const { folder, mapping, mappingName, timeZone } = reading;
  const { name, path, bytes, modifiedAt } = file;
  const contentHash = await hashOfFile(path, signal);
  const state = { folder, name, contentHash };
  const note = (result: Pick<StoredWatchedFile, 'batchId' | 'refusal'>, takenAt = context.now()) =>
    noteState(entities, { ...state, bytes, modifiedAt, takenAt, ...result });
  const known = await findState(entities, state);
  if (known !== null && !isWorthAnotherTry(known, reading)) {
    // Touched, not changed; or a copy of an older state came back: that one is the newest now.
    await note(known);
    return { kind: 'unchanged' };
  }
  const before = await findBatchOfContent(entities, { contentHash, mappingName });
  // One that every row of was set aside is read again once its mapping was mended.
  if (before !== null && before !== known?.batchId) {
    await note({ batchId: before, refusal: null });
    return { kind: 'met-before', batch: before };
  }
  try {
    const source = bytesOfHash(path, contentHash, signal);
    const report = await importReadings(context, {
      name,
      source,
      mapping,
      timeZone,
      contentHash,
      mappingName,
    });
    const why = await whyNothingTaken(context, report);
    const refusal = why === null ? null : why.slice(0, MOST_REFUSAL);
    await note({ batchId: report.batch, refusal });
    return refusal === null ? { kind: 'taken', report } : { kind: 'refused', refusal };
  } catch (error) {
    if (!(error instanceof AppError) || !FAULTS_OF_FILES.has(error.code)) throw error;
    const refusal = refusalOf(error);
    await note({ batchId: null, refusal });
    return { kind: 'refused', refusal };
  }
}

/** Whether a file that was refused may be read now: its mapping was mended since. */
export function isWorthAnotherTry(known: StoredWatchedFile, { mappingChangedAt }: Reading): boolean {
  return known.refusal !== null && mappingChangedAt > known.takenAt;
}

/** What is wrong, with line and field where the message does not say them itself. */
function refusalOf({ message, faults }: AppError): string {
  const fault = faults[0];
  const isSaid = fault === undefined || message.includes(fault.message);
  const where = fault?.line === undefined ? '' : `line ${fault.line}, `;
  return (isSaid ? message : `${message}: ${where}${fault.field}: ${fault.message}`).slice(0, MOST_REFUSAL);
}
