import type { ImportReport } from '@/lib/contract/import-report';
import { analyse } from './analyse';
import type { Context } from './context';
import { importReadings, type ReadingsFile } from './import-readings';
import { log } from './log';

/** An import, and whether the results of the units it changed are up to date again. */
export type TakenReadings = ImportReport & { isAnalysed: boolean };

/**
 * Imports a readings file and brings the results of what it changed up to date. Readings that are in stay in: an
 * analysis that fails is logged and made up for by the next one.
 */
export async function takeReadings(context: Context, file: ReadingsFile): Promise<TakenReadings> {
  const report = await importReadings(context, file);
  return { ...report, isAnalysed: report.batch === null ? false : await bringUpToDate(context) };
}

/** False where the analysis failed; what was due stays due. */
export async function bringUpToDate(context: Context): Promise<boolean> {
  try {
    await analyse(context);
    return true;
  } catch (error) {
    log.error({ err: error }, 'analysis failed');
    return false;
  }
}
