import type { Changes } from '@/lib/contract/changes';
import { changeInWords } from './change-words';
import { type ChangesRecords, zoneOf } from './changes-records';

/** A page of changes as the API gives it. */
export function changesDocument(records: ChangesRecords): Changes {
  const { changes, total, next, timeZone } = records;
  return {
    timeZone,
    total,
    next,
    changes: changes.map((change) => ({
      ...change,
      at: new Date(change.at).toISOString(),
      actor: { kind: change.actor.kind, name: change.actor.name },
      text: changeInWords(change, zoneOf(change, records)),
    })),
  };
}
