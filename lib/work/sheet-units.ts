import type { Unit } from '@/lib/contract/fleet-file';
import { isSameJson, type Json, type JsonObject, putAt, valueAt } from '@/lib/contract/fleet-sheet/paths';
import type { SheetColumn } from '@/lib/contract/fleet-sheet/sheet-column';
import { COLUMNS_OF_A_UNIT } from '@/lib/contract/fleet-sheet/tables';
import { formOf, unitOfForm } from '@/lib/contract/fleet-sheet/unit-form';
import { rowFault } from '@/lib/ingest/fleet-sheet/read-table';
import type { SheetFault, SheetRow, SheetRows } from '@/lib/ingest/fleet-sheet/sheet-rows';
import { propertiesAsSheetSays, type SheetFluid, type SheetFluids } from './sheet-fluids';
import { asSheetSays, inZone, isSameTime } from './sheet-value';

/** All rows about one unit: on the sheet of units, on that of details, on others with such columns. */
export type UnitRows = { tag: string; rows: SheetRow[] };

const SIDES = ['hot', 'cold'] as const;
const OF_THE_ROW = new Set(['tag', 'site', 'version']);

/** Gathers rows by tag. Rows without a tag and tags that stand twice on a sheet are added to the faults. */
export function rowsByUnit(tables: SheetRows[], faults: SheetFault[]): UnitRows[] {
  const units = new Map<string, UnitRows>();
  for (const { table, rows } of tables) {
    if (table !== 'units') continue;
    const seen = new Map<string, number>();
    for (const row of rows) {
      const tag = row.values.get('tag');
      if (typeof tag !== 'string') {
        if (!row.unread.has('tag'))
          faults.push(rowFault(row, 'tag', 'is missing; give the unit its tag, or empty the row'));
        continue;
      }
      const first = seen.get(tag);
      if (first !== undefined) {
        faults.push(rowFault(row, 'tag', `${tag} stands already in row ${first}; keep one of the rows`));
        continue;
      }
      seen.set(tag, row.row);
      const unit = units.get(tag) ?? { tag, rows: [] };
      unit.rows.push(row);
      units.set(tag, unit);
    }
  }
  return [...units.values()];
}

/** The row whose sheet has a column; null where no sheet of the unit has it. */
export function rowWith({ rows }: UnitRows, path: string): SheetRow | null {
  return rows.find((row) => row.columns.has(path)) ?? null;
}

export type UnitDifference = {
  /** Column, or the stream whose properties differ; what stands and what is to stand. */
  changes: {
    column: SheetColumn | null;
    side: string | null;
    before: Json | undefined;
    after: Json | undefined;
  }[];
  document: JsonObject;
  /** Column of limit i of the document. */
  limitPaths: string[];
  fluids: Partial<Record<'hot' | 'cold', SheetFluid>>;
};

type Told = { timeZone: string; fluids: SheetFluids; faults: SheetFault[] };

/**
 * What the rows of a unit say that its datasheet does not, and the document that follows. A column that no sheet of the unit has
 * says nothing: what stands is kept. A blank cell takes away what stands.
 */
export function unitDifference(unit: UnitRows, known: Unit | null, told: Told): UnitDifference {
  const form = known === null ? {} : formOf(known);
  const changes: UnitDifference['changes'] = [];
  for (const column of COLUMNS_OF_A_UNIT) {
    if (column.path === 'tag') putAt(form, 'tag', unit.tag);
    if (OF_THE_ROW.has(column.path)) continue;
    const stated = statedIn(unit, column, told);
    if (stated === null) continue;
    const before = asSheetSays(column, valueAt(form, column.path));
    if (isSameJson(stated.value, before) || isSameTime(column, stated.value, before)) continue;
    changes.push({ column, side: null, before, after: stated.value });
    putAt(form, column.path, stated.value);
  }
  const fluids = putFluids(unit, form, { known, changes, fluids: told.fluids });
  const { document, limitPaths } = unitOfForm(form);
  const isSameLimits = !changes.some(({ column }) => column?.path.startsWith('limits.'));
  if (known !== null && isSameLimits) document.limits = structuredClone(known.limits) as Json;
  return { changes, document, limitPaths, fluids };
}

/** What the sheets state for a column; null where none has it, or its cell cannot be read. */
function statedIn(
  unit: UnitRows,
  column: SheetColumn,
  { timeZone, faults }: Told,
): { value: Json | undefined } | null {
  const rows = unit.rows.filter((row) => row.columns.has(column.path));
  const [row] = rows;
  if (row === undefined || rows.some(({ unread }) => unread.has(column.path))) return null;
  const value = row.values.get(column.path);
  const other = rows.find((candidate) => !isSameJson(candidate.values.get(column.path), value));
  if (other !== undefined) {
    faults.push(
      rowFault(other, column.path, `differs from the sheet "${row.sheet}"; state it on one of the two`),
    );
    return null;
  }
  if (value === undefined) return { value };
  const moment = inZone(value, timeZone);
  if ('value' in moment) return moment;
  faults.push(rowFault(row, column.path, moment.fault));
  row.unread.add(column.path);
  return null;
}

/** Puts the properties of custom fluids where they belong; those of a fluid that the workbook says nothing of are kept. */
function putFluids(
  { tag }: UnitRows,
  form: JsonObject,
  { known, changes, fluids }: { known: Unit | null; fluids: SheetFluids } & Pick<UnitDifference, 'changes'>,
): UnitDifference['fluids'] {
  const used: UnitDifference['fluids'] = {};
  for (const side of SIDES) {
    const [fluid, name] = [valueAt(form, `${side}.fluid`), valueAt(form, `${side}.name`)];
    const found = fluids.find({ tag, side, fluid, name });
    const path = `${side}.properties`;
    const before = valueAt(form, path) as JsonObject | undefined;
    if (found !== null) {
      used[side] = found;
      if (before !== undefined && isSameJson(found.properties, propertiesAsSheetSays(before))) continue;
      changes.push({ column: null, side, before, after: found.properties });
      putAt(form, path, structuredClone(found.properties));
    } else if (before !== undefined && !isSameStream(known?.[side], fluid, name)) {
      changes.push({ column: null, side, before, after: undefined });
      putAt(form, path, undefined);
    }
  }
  return used;
}

function isSameStream(
  known: Unit['hot'] | undefined,
  fluid: Json | undefined,
  name: Json | undefined,
): boolean {
  return known?.fluid === fluid && (fluid !== 'custom' || known?.name === name);
}
