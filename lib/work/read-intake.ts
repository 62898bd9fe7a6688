import type { IntakeRecords } from '@/lib/report/import/intake-view';
import { listWatchedFiles } from '@/lib/store/entities/watched-files';
import type { Context } from './context';
import { savedMappings } from './saved-mappings';

/** Files of watched folders looked at for the latest of each folder. */
const LATEST_FILES = 500;

/** How readings come in beside files chosen by hand: saved mappings and watched folders. */
export async function readIntake(context: Context): Promise<IntakeRecords> {
  const [{ mappings }, files] = await Promise.all([
    savedMappings(context),
    listWatchedFiles(context.store.entities, LATEST_FILES),
  ]);
  return { mappings, files, now: context.now() };
}
