import { AppError } from '@/lib/contract/app-error';
import {
  type CleaningFile,
  type CleaningFileQuery,
  type CleaningFileRecord,
  LARGEST_KEPT_FILE,
  MOST_KEPT_FILES,
} from '@/lib/contract/cleaning-files';
import { keptFileType } from '@/lib/ingest/kept-file-type';
import { findCleaningFile, saveCleaningFile } from '@/lib/store/entities/cleaning-files';
import { changing } from './changing';
import type { Context } from './context';

const MEBIBYTE = 2 ** 20;

/**
 * Keeps a photograph or a report with a recorded cleaning.
 *
 * @throws AppError 'not-found' for an unknown cleaning, 'too-large', 'invalid-input' for a file of another kind, and where
 *   the cleaning has as many as are kept
 */
export async function keepCleaningFile(
  context: Context,
  { cleaning, name, by }: CleaningFileQuery,
  content: Uint8Array,
): Promise<CleaningFile> {
  if (content.length > LARGEST_KEPT_FILE) throw tooLarge();
  const type = keptFileType(content);
  if (type === null) {
    throw new AppError('invalid-input', `"${name}" is no photograph and no report`, [
      { field: 'file', message: 'send a JPEG, PNG, WebP or PDF file; its first bytes tell, not its name' },
    ]);
  }
  const file = { cleaningId: cleaning, name, type, content };
  const kept = await changing(context, by, (making) => saveCleaningFile(making, file, MOST_KEPT_FILES));
  if (kept === 'no-cleaning') throw new AppError('not-found', `There is no cleaning ${cleaning}`);
  if (kept === 'full') {
    throw new AppError('invalid-input', `A cleaning keeps at most ${MOST_KEPT_FILES} files`, [
      { field: 'file', message: 'put several photographs into one PDF' },
    ]);
  }
  return shownFile(kept);
}

function tooLarge(): AppError {
  return new AppError('too-large', `A file may have at most ${LARGEST_KEPT_FILE / MEBIBYTE} MiB`, [
    { field: 'file', message: 'make the photograph smaller, or split the report' },
  ]);
}

function shownFile({
  id,
  cleaningId,
  name,
  type,
  bytes,
  addedBy,
  addedAt,
}: CleaningFileRecord): CleaningFile {
  return { id, cleaning: cleaningId, name, type, bytes, addedBy, addedAt: new Date(addedAt).toISOString() };
}

/** A kept file with its content. @throws AppError 'not-found' for an unknown one */
export async function readCleaningFile(context: Context, id: number) {
  const file = await findCleaningFile(context.store.entities, id);
  if (file === null) throw new AppError('not-found', `There is no file ${id}`);
  return file;
}
