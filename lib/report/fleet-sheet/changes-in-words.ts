import type { SheetChange } from '@/lib/contract/fleet-sheet/answer';
import type { Json } from '@/lib/contract/fleet-sheet/paths';
import type { SheetColumn } from '@/lib/contract/fleet-sheet/sheet-column';
import { writeCell } from './write-cell';

type Change = {
  column: SheetColumn | null;
  side: string | null;
  before: Json | undefined;
  after: Json | undefined;
};

/** Changed fields by their headings, values as a sheet writes them with their unit of measure. */
export function changesInWords(
  changes: Change[],
  moved: { before: string; after: string } | null,
): SheetChange[] {
  const said = changes.map(({ column, side, before, after }) =>
    column === null
      ? { heading: `Properties of the ${side} fluid`, before: stated(before), after: stated(after) }
      : { heading: column.heading, before: inCell(column, before), after: inCell(column, after) },
  );
  return moved === null ? said : [{ heading: 'Site', ...moved }, ...said];
}

function stated(properties: Json | undefined): string | null {
  return properties === undefined ? null : 'stated';
}

function inCell(column: SheetColumn, value: Json | undefined): string | null {
  const cell = writeCell(column, value, null);
  return cell === null ? null : String(cell);
}
