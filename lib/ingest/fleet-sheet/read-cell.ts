import type { Json } from '@/lib/contract/fleet-sheet/paths';
import type { LeafKind } from '@/lib/contract/fleet-sheet/schema-leaves';
import { SHARE, type SheetColumn } from '@/lib/contract/fleet-sheet/sheet-column';
import { offeredUnits, unitNamed } from '@/lib/contract/fleet-sheet/unit-words';
import type { Suggest } from '@/lib/contract/nearest-name';
import type { WorkbookCell } from '../xlsx/workbook';
import { readDayCell, readTimeCell } from './read-day-cell';
import { notANumber, readSheetNumber } from './read-sheet-number';

/** What a cell states: undefined where it is blank; or what is wrong with it. */
export type CellReading = { value: Json | undefined } | { fault: string };

export type CellContext = {
  /** Unit of measure of the column (UCUM, or a plain share); null where none is stated. */
  unit: string | null;
  decimalComma: boolean | null;
  suggest: Suggest;
};

/** Says that a value has no unit of measure: told once per column, not for each cell. */
export const NO_UNIT = 'no-unit';

const BLANK: CellReading = { value: undefined };
/** What people write where nothing is known or nothing applies. */
const DASHES = /^(?:[-\u2013\u2014]+|n\/?a)$/i;

/** What a cell of a column says. */
export function readCell(column: SheetColumn, cell: WorkbookCell, context: CellContext): CellReading {
  const { kind } = column;
  const given = typeof cell === 'string' ? cleanText(cell) : cell;
  if (given === null || given === '') return BLANK;
  if (kind.by === 'text') return readText(given);
  if (typeof given === 'string' && DASHES.test(given)) return BLANK;
  if (kind.by === 'time') return readTimeCell(given);
  if (kind.by === 'day') return readDayCell(given);
  if (typeof given === 'object') {
    return { fault: 'holds a date; format the cell as a number or as text, and type the value again' };
  }
  if (column.isList) return readList(kind, given, context);
  return readOne(kind, given, context);
}

/** A text without what a workbook cannot hold and without blanks around it. */
export function cleanText(text: string): string {
  return (
    text
      .replace(/\r\n?/g, '\n')
      // biome-ignore lint/suspicious/noControlCharactersInRegex: XML has none of them
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '')
      .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '')
      .trim()
  );
}

function readText(given: string | number | boolean | { dateText: string }): CellReading {
  if (typeof given === 'object') {
    return { fault: 'holds a date; format the cell as text, and type the text again' };
  }
  return { value: String(given) };
}

function readList(kind: LeafKind, given: string | number | boolean, context: CellContext): CellReading {
  const parts = typeof given === 'string' ? given.split(';').map((part) => part.trim()) : [given];
  const values: Json[] = [];
  for (const part of parts.filter((text) => text !== '')) {
    const reading = readOne(kind, part, context);
    if ('fault' in reading) return reading;
    values.push(reading.value!);
  }
  return values.length === 0 ? BLANK : { value: values };
}

function readOne(kind: LeafKind, given: string | number | boolean, context: CellContext): CellReading {
  switch (kind.by) {
    case 'choice':
      return readChoice(kind.words, String(given), context.suggest);
    case 'yes-no':
      return readYesNo(given);
    case 'number':
      return readNumber(kind, given, context);
    default:
      return readMeasured(kind, given, context);
  }
}

function readChoice(words: readonly string[], text: string, suggest: Suggest): CellReading {
  const meant = words.find((word) => plain(word) === plain(text));
  if (meant !== undefined) return { value: meant };
  return {
    fault: `"${text.slice(0, 60)}" is not known here${suggest(text, words)}use one of ${words.join(', ')}`,
  };
}

function plain(text: string): string {
  return text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
}

function readYesNo(given: string | number | boolean): CellReading {
  const text = String(given).toLowerCase();
  if (['yes', 'y', 'true', '1'].includes(text)) return { value: true };
  if (['no', 'n', 'false', '0'].includes(text)) return { value: false };
  return { fault: `"${text.slice(0, 60)}" is neither; write yes or no` };
}

function readNumber(
  { maximum }: Extract<LeafKind, { by: 'number' }>,
  given: string | number | boolean,
  context: CellContext,
): CellReading {
  const taken = takeApart(given, context);
  if ('fault' in taken) return taken;
  const isShare = maximum === 1;
  if (taken.unit !== '' && !(isShare && taken.unit === '%')) {
    return {
      fault: `"${String(given).slice(0, 60)}" has something behind the number; write the number alone`,
    };
  }
  const value = taken.unit === '%' ? taken.value / 100 : taken.value;
  if (isShare && value > 1)
    return { fault: `${value} is more than the whole; write a share such as 0.75 or 75 %` };
  return { value };
}

function readMeasured(kind: LeafKind, given: string | number | boolean, context: CellContext): CellReading {
  const taken = takeApart(given, context);
  if ('fault' in taken) return taken;
  const mayBeShare = kind.by === 'quantity' && kind.orShare;
  if (taken.unit === '%' && mayBeShare) return { value: taken.value / 100 };
  const unit = taken.unit === '' ? context.unit : unitNamed(kind, taken.unit);
  if (unit === null) return { fault: taken.unit === '' ? NO_UNIT : noSuchUnit(kind, taken.unit) };
  if (unit === SHARE) return { value: taken.value };
  if (kind.by !== 'priced') return { value: { value: taken.value, unit } };
  return { value: { [kind.what]: taken.value, per: unit } };
}

/** Why a unit of measure is refused, and what the column takes. */
export function noSuchUnit(kind: LeafKind, written: string): string {
  return `"${written.slice(0, 60)}" does not measure this; use for example ${offeredUnits(kind).slice(0, 8).join(', ')}`;
}

const NUMBER_AND_REST = /^([+\-\u2212]?[\d.,]+(?:[eE][+-]?\d+)?)\s*(.*)$/s;

function takeApart(
  given: string | number | boolean,
  { decimalComma }: CellContext,
): { value: number; unit: string } | { fault: string } {
  if (typeof given === 'number') return { value: given, unit: '' };
  const [, number, unit] = NUMBER_AND_REST.exec(String(given)) ?? [];
  if (number === undefined) return { fault: notANumber(String(given)) };
  const read = readSheetNumber(number, decimalComma);
  return 'fault' in read ? read : { value: read.value, unit: unit! };
}
