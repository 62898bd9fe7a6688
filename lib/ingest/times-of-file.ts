import { findTimes } from './find-times';
import type { FoundTimes } from './found-times';
import type { Layout, ReadingOptions } from './reading-format';
import { timePlace } from './time-field';

const NAME_IT =
  'choose it on the import screen, write --time-format on the command line, or timeFormat in the mapping';

/**
 * How the times of a text file are written. Where its beginning does not show it, that is a fault of the layout: one
 * half of such a file would be read wrong and the other set aside.
 */
export function timesOf(
  { columns, faults }: Layout,
  { line, rows }: { line: number; rows: readonly string[][] },
  options: ReadingOptions,
): FoundTimes {
  const { field, dateField, name } = timePlace(columns);
  const named = options.mapping?.timeFormat;
  if (field < 0) return findTimes([], { name: '', named });
  const texts = rows.map((cells) =>
    dateField < 0 ? (cells[field] ?? '') : `${cells[dateField] ?? ''} ${cells[field] ?? ''}`,
  );
  const found = findTimes(texts, { name, named });
  if (found.format === null) faults.push({ field: name, line, message: faultOf(found) });
  return found;
}

function faultOf({ evidence }: FoundTimes): string {
  return evidence.endsWith('is a plain number')
    ? `${evidence}; say what it counts (excel-serial, epoch-seconds or epoch-milliseconds): ${NAME_IT}`
    : `${evidence}; say which it is (day-first or month-first): ${NAME_IT}`;
}
