import type { Json } from '@/lib/contract/fleet-sheet/paths';
import type { SheetColumn } from '@/lib/contract/fleet-sheet/sheet-column';
import { readCell } from '@/lib/ingest/fleet-sheet/read-cell';
import { writeCell } from '@/lib/report/fleet-sheet/write-cell';
import { isoInZone } from '@/lib/time/local-day';
import { localInstant } from '@/lib/time/local-instant';

const NEVER_SUGGEST = () => '; ';

/** A value as it would be read back from the cell that states it: what a row must differ from to change anything. */
export function asSheetSays(column: SheetColumn, value: Json | undefined): Json | undefined {
  const cell = writeCell(column, value, null);
  const reading = readCell(column, cell, { unit: null, decimalComma: null, suggest: NEVER_SUGGEST });
  return 'value' in reading ? reading.value : undefined;
}

/** A local time that a cell states as an instant with its offset; whatever else it states as it is. */
export function inZone(value: Json, timeZone: string): { value: Json } | { fault: string } {
  if (typeof value !== 'object' || value === null || Array.isArray(value) || value.local === undefined) {
    return { value };
  }
  const local = String(value.local);
  const instant = localInstant(local, timeZone);
  if (typeof instant === 'number') return { value: isoInZone(instant, timeZone) };
  const why =
    instant === 'no-time' ? 'is no time' : `occurs twice or never in ${timeZone}, as the clocks change then`;
  return { fault: `${local.replace('T', ' ')} ${why}; write it with its offset, such as ${local}+01:00` };
}

/** Whether two values of a column say the same: times as instants. */
export function isSameTime(column: SheetColumn, a: Json | undefined, b: Json | undefined): boolean {
  return (
    column.kind.by === 'time' &&
    typeof a === 'string' &&
    typeof b === 'string' &&
    Date.parse(a) === Date.parse(b)
  );
}
