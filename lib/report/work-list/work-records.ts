import type { CleaningFileRecord } from '@/lib/contract/cleaning-files';
import type { PlannedChangeRecord } from '@/lib/contract/planned';
import type { FleetRecords, PlannedRecord } from '@/lib/report/records';

/** Everything the work list is made from. */
export type WorkRecords = {
  fleet: FleetRecords;
  /** Dated work of every state, the earliest first. */
  work: PlannedRecord[];
  /** By number of the work, oldest first. */
  changes: ReadonlyMap<number, PlannedChangeRecord[]>;
  /** By number of the cleaning. */
  files: ReadonlyMap<number, CleaningFileRecord[]>;
};

/** Work whose end is past and that nobody said was done. */
export function isOverdue({ state, to }: Pick<PlannedRecord, 'state' | 'to'>, now: number): boolean {
  return state === 'open' && to < now;
}
