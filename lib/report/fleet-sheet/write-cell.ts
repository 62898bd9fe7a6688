import type { Json } from '@/lib/contract/fleet-sheet/paths';
import type { LeafKind } from '@/lib/contract/fleet-sheet/schema-leaves';
import { SHARE, type SheetColumn } from '@/lib/contract/fleet-sheet/sheet-column';
import { unitInWords } from '@/lib/contract/fleet-sheet/unit-words';

/** A cell as it is written: a number, a text, or blank. */
export type WrittenCell = number | string | null;

/** Characters a cell holds at most. */
export const MOST_CHARACTERS = 32_767;

/** The cell that states a value. One whose unit of measure is not the column's has its own behind it. */
export function writeCell(column: SheetColumn, value: Json | undefined, unit: string | null): WrittenCell {
  if (value === undefined || value === null) return null;
  const { kind } = column;
  if (column.isList && Array.isArray(value)) {
    const cells = value.map((each) => writeOne(kind, each, unit));
    return cells.length === 1 ? cells[0]! : cells.join('; ');
  }
  return writeOne(kind, value, unit);
}

function writeOne(kind: LeafKind, value: Json, unit: string | null): WrittenCell {
  if (kind.by === 'yes-no') return value === true ? 'yes' : 'no';
  if (kind.by === 'number') return value as number;
  if (kind.by === 'quantity') return writeQuantity(kind, value, unit);
  if (kind.by === 'priced') {
    const { per, [kind.what]: amount } = value as Record<string, string | number>;
    return measured(kind, amount as number, { own: String(per), column: unit });
  }
  return String(value).slice(0, MOST_CHARACTERS);
}

function writeQuantity(kind: LeafKind, value: Json, unit: string | null): WrittenCell {
  if (typeof value === 'number') return unit === SHARE ? value : shareText(value);
  const given = value as { value: number; unit: string };
  return measured(kind, given.value, { own: given.unit, column: unit });
}

function measured(kind: LeafKind, value: number, { own, column }: { own: string; column: string | null }) {
  return own === column ? value : `${value} ${unitInWords(kind, own)}`;
}

/** As percent where that gives the same number back. */
function shareText(value: number): string {
  const percent = Number((value * 100).toPrecision(12));
  return percent / 100 === value ? `${percent} %` : `${value} ${SHARE}`;
}

/** Unit of measure that most values of a column have: the column's own then; the first of the system where there are none. */
export function usualUnit(
  column: SheetColumn,
  values: (Json | undefined)[],
  system: 'si' | 'us',
): string | null {
  if (column.unit === null) return null;
  const counts = new Map<string, number>();
  for (const value of values.flatMap((each) => (column.isList && Array.isArray(each) ? each : [each]))) {
    const unit = unitOf(value);
    if (unit !== null) counts.set(unit, (counts.get(unit) ?? 0) + 1);
  }
  const [usual] = [...counts].sort(([, a], [, b]) => b - a)[0] ?? [];
  return usual ?? column.unit[system];
}

function unitOf(value: Json | undefined): string | null {
  if (typeof value === 'number') return SHARE;
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return null;
  const unit = value.unit ?? value.per;
  return typeof unit === 'string' ? unit : null;
}
