import { beginImport } from '@/lib/auth/limits';
import type { ImportProgress } from '@/lib/contract/api/import-lines';
import { batchOfContent } from '@/lib/store/entities/repeated-batch';
import type { Context } from './context';
import { importReadings, type ReadingsFile } from './import-readings';
import { bringUpToDate, type TakenReadings, takeReadings } from './take-readings';
import { type Spooled, spool } from './uploads/spool';
import { uploadFolder } from './uploads/upload-folder';

/** Least time between two reports of progress [ms]. */
const PROGRESS_STEP_MS = 250;

/** `repeated`: the same bytes are here already and say nothing new; `batch` is then the earlier import. */
export type TakenUpload = TakenReadings & { repeated: boolean };

export type Upload = Omit<ReadingsFile, 'source' | 'contentHash' | 'onChunk'>;

/** While an upload is read: it ends when `signal` is aborted, and then nothing of it stays. */
export type Watched = { signal?: AbortSignal; onProgress?: (progress: ImportProgress) => void };

/** An upload that is wholly here and waits to be read; exactly one of the two must be called. */
export type Received = { take(watched?: Watched): Promise<TakenUpload>; drop(): Promise<void> };

/**
 * Receives a file of readings. The database is asked for nothing before its last byte is here, so that a slow sender holds up
 * nobody else.
 *
 * @throws TooManyRequests, AppError 'database-unusable' where it cannot be kept, and what `source` throws
 */
export async function receiveUpload(
  context: Context,
  upload: Upload,
  source: AsyncIterable<Uint8Array>,
): Promise<Received> {
  const end = beginImport(context.actor);
  let spooled: Spooled;
  try {
    spooled = await spool(source, uploadFolder());
  } catch (error) {
    end();
    throw error;
  }
  const drop = async () => {
    end();
    await spooled.remove();
  };
  return { take: (watched = {}) => takeSpooled(context, upload, { spooled, watched }).finally(drop), drop };
}

/** Receives a file of readings and takes it in. */
export async function takeUpload(
  context: Context,
  { source, signal, onProgress, ...upload }: Upload & Watched & { source: AsyncIterable<Uint8Array> },
): Promise<TakenUpload> {
  const received = await receiveUpload(context, upload, source);
  return received.take({ signal, onProgress });
}

type Here = { spooled: Spooled; watched: Watched };

async function takeSpooled(context: Context, upload: Upload, here: Here): Promise<TakenUpload> {
  const file = () => ({ ...upload, ...watch(here), contentHash: here.spooled.hash });
  if (upload.check) return { ...(await takeReadings(context, file())), repeated: false };
  const repeated = await repeatedImport(context, here.spooled.hash, file);
  return repeated ?? { ...(await takeReadings(context, file())), repeated: false };
}

/**
 * What the same bytes would change now, where they are here already: if nothing, that is the answer, under the number of the import
 * that stands. They are read again for it, because that they are here does not say that all of it still stands: a later import may
 * have replaced some, an undo taken some away, a unit been added whose rows were kept aside.
 */
async function repeatedImport(
  context: Context,
  hash: string,
  file: () => ReadingsFile,
): Promise<TakenUpload | null> {
  const earlier = await batchOfContent(context.store.entities, hash);
  if (earlier === null) return null;
  const report = await importReadings(context, { ...file(), check: true });
  const isSame = report.read === earlier.read && report.setAside === earlier.setAside;
  if (!isSame || report.added > 0 || report.replaced > 0) return null;
  return { ...report, batch: earlier.id, isAnalysed: await bringUpToDate(context), repeated: true };
}

/** The pieces of an upload, which end where it is cancelled, with reports of how far it has got. */
function watch({ spooled, watched: { signal, onProgress } }: Here) {
  const progress: ImportProgress = { bytes: 0, ofBytes: spooled.bytes, read: 0, setAside: 0 };
  let told = performance.now();
  const tell = () => {
    const now = performance.now();
    if (onProgress === undefined || now - told < PROGRESS_STEP_MS) return;
    told = now;
    onProgress({ ...progress });
  };
  async function* source() {
    for await (const piece of spooled.pieces()) {
      signal?.throwIfAborted();
      progress.bytes += piece.length;
      yield piece;
      tell();
    }
    signal?.throwIfAborted();
  }
  const onChunk = (chunk: { read: number; setAside: number }) => {
    signal?.throwIfAborted();
    progress.read += chunk.read;
    progress.setAside += chunk.setAside;
    tell();
  };
  return { source: source(), onChunk };
}
