import type { Leaf } from './schema-leaves';
import type { SheetColumn } from './sheet-column';
import { firstUnits } from './unit-words';

/** What a column says of itself; the rest follows from the schema. */
export type ColumnWords = {
  path: string;
  heading: string;
  /** What it means; where left out, as the schema describes the field. */
  meaning?: string;
  example?: string | number;
  /** Unit of measure it begins with, where that is not the usual one of its kind. */
  unit?: string;
  isList?: boolean;
};

/** Columns of one group, what they hold and which of them are required taken from the schema. */
export function columnsOf(
  leaves: readonly Leaf[],
  group: string,
  words: readonly ColumnWords[],
): SheetColumn[] {
  return words.map(({ path, heading, meaning, example = null, unit, isList = false }) => {
    const leaf = leaves.find((candidate) => candidate.path === path);
    if (leaf === undefined) throw new RangeError(`the schema has no ${path}`);
    return {
      path,
      heading,
      group,
      kind: leaf.kind,
      isRequired: leaf.isRequired,
      meaning: meaning ?? leaf.description ?? '',
      example,
      isList,
      unit: unit === undefined ? firstUnits(leaf.kind) : { si: unit, us: unit },
    };
  });
}

/** A column that the schema does not know: which site, which version, which fluid a row is about. */
export function ownColumn(
  words: Omit<ColumnWords, 'unit' | 'isList'> & { meaning: string },
  kind: SheetColumn['kind'],
  group: string,
): SheetColumn {
  return { example: null, ...words, kind, group, isRequired: false, isList: false, unit: null };
}
