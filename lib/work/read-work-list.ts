import type { CleaningFileRecord } from '@/lib/contract/cleaning-files';
import type { WorkList } from '@/lib/contract/planned';
import { workDocument } from '@/lib/report/work-list/work-document';
import type { WorkRecords } from '@/lib/report/work-list/work-records';
import { listCleaningFiles } from '@/lib/store/entities/cleaning-files';
import { listPlanned } from '@/lib/store/entities/planned';
import { listPlannedChanges } from '@/lib/store/entities/planned-changes';
import type { Context } from './context';
import { readFleet } from './read-fleet';

/** Everything the work list shows: of the fleet only the units that it is about. */
export async function readWorkList(context: Context): Promise<WorkRecords> {
  const { entities } = context.store;
  const work = await listPlanned(entities);
  const tags = [...new Set(work.map(({ tag }) => tag))];
  const [fleet, changes, files] = await Promise.all([
    readFleet(context, { lastDays: 0, tags }),
    listPlannedChanges(entities),
    listCleaningFiles(entities),
  ]);
  return { fleet, work, changes, files: byCleaning(files) };
}

function byCleaning(files: CleaningFileRecord[]): Map<number, CleaningFileRecord[]> {
  const groups = new Map<number, CleaningFileRecord[]>();
  for (const file of files) groups.set(file.cleaningId, [...(groups.get(file.cleaningId) ?? []), file]);
  return groups;
}

/** The work list for another program. */
export async function showWorkList(context: Context): Promise<WorkList> {
  return workDocument(await readWorkList(context));
}
