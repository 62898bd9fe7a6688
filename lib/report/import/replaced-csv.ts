import type { ReplacedReadings } from '@/lib/contract/replaced-readings';
import { csvText } from '../format/csv';

/** Replaced values as rows of a file. */
export function replacedCsv({ rows }: ReplacedReadings): string {
  return csvText([
    ['tag', 'time', 'sensor', 'before', 'unit', 'after', 'unit_after', 'before_import', 'changed_since'],
    ...rows.map(({ tag, time, sensor, unit, before, after, unitAfter, beforeImport, isChangedSince }) => [
      tag,
      time,
      sensor,
      before,
      unit,
      after,
      unitAfter,
      beforeImport,
      isChangedSince ? 'yes' : 'no',
    ]),
  ]);
}
