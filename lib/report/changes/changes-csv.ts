import type { KeptChange } from '@/lib/contract/change-record';
import { isoInZone } from '@/lib/time/local-day';
import { csvText } from '../format/csv';
import { changeInWords } from './change-words';
import { type ChangesRecords, zoneOf } from './changes-records';

/** Changes as rows of a file, the newest first. */
export function changesCsv(
  changes: readonly KeptChange[],
  zones: Pick<ChangesRecords, 'zones' | 'timeZone'>,
): string {
  const json = (document: unknown) => (document === null ? null : JSON.stringify(document));
  return csvText([
    ['number', 'time', 'who', 'who_is', 'subject', 'name', 'action', 'what', 'note', 'before', 'after'],
    ...changes.map((change) => {
      const zone = zoneOf(change, zones);
      const { id, at, actor, subject, name, action, note, before, after } = change;
      const words = changeInWords(change, zone);
      const time = isoInZone(at, zone);
      return [
        id,
        time,
        actor.name,
        actor.kind,
        subject,
        name,
        action,
        words,
        note,
        json(before),
        json(after),
      ];
    }),
  ]);
}
