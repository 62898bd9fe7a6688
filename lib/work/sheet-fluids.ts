import { type FluidRows, propertiesOfRows, rowsOfProperties } from '@/lib/contract/fleet-sheet/fluid-rows';
import { type JsonObject, putAt } from '@/lib/contract/fleet-sheet/paths';
import { SHEET_TABLES } from '@/lib/contract/fleet-sheet/tables';
import { rowFault } from '@/lib/ingest/fleet-sheet/read-table';
import type { SheetFault, SheetRow, SheetRows } from '@/lib/ingest/fleet-sheet/sheet-rows';
import { asSheetSays } from './sheet-value';

/** The properties that a workbook states for one fluid; `rows[i]` is where row i of its table stands. */
export type SheetFluid = { key: string; properties: JsonObject; rows: SheetRow[]; isUsed: boolean };

export type SheetFluids = {
  /** Of one stream of one unit, else of a custom fluid by its name; null where the workbook states nothing. */
  find(stream: { tag: string; side: string; fluid: unknown; name: unknown }): SheetFluid | null;
  all: SheetFluid[];
};

type Gathered = { rows: FluidRows; placeOf: Map<JsonObject, SheetRow>; first: SheetRow };

/** Gathers the rows of the sheets "Fluids" and "Polynomials" by fluid. What contradicts itself is added to the faults. */
export function sheetFluids(tables: SheetRows[], faults: SheetFault[]): SheetFluids {
  const gathered = new Map<string, Gathered>();
  for (const { table, rows } of tables) {
    if (table !== 'fluids' && table !== 'polynomials') continue;
    for (const row of rows) {
      const key = ownerOf(row, faults);
      if (key === null) continue;
      const found = gathered.get(key) ?? {
        rows: { table: [], polynomials: [] },
        placeOf: new Map(),
        first: row,
      };
      const stated = statedOf(row);
      (table === 'fluids' ? found.rows.table : found.rows.polynomials).push(stated);
      found.placeOf.set(stated, row);
      gathered.set(key, found);
    }
  }
  const all = new Map([...gathered].map(([key, found]) => [key, fluidOf(key, found, faults)]));
  return {
    all: [...all.values()],
    find: ({ tag, side, fluid, name }) => {
      const found = all.get(unitKey(tag, side)) ?? (fluid === 'custom' ? all.get(nameKey(name)) : undefined);
      if (found === undefined) return null;
      found.isUsed = true;
      return found;
    },
  };
}

const unitKey = (tag: string, side: string) => `unit ${tag} ${side}`;
const nameKey = (name: unknown) => `fluid ${String(name ?? '').toLowerCase()}`;

function ownerOf(row: SheetRow, faults: SheetFault[]): string | null {
  const [fluid, tag, side] = ['fluid', 'tag', 'side'].map((path) => row.values.get(path));
  if (tag !== undefined && side !== undefined) return unitKey(String(tag), String(side));
  if (tag !== undefined || side !== undefined) {
    const missing = tag === undefined ? 'tag' : 'side';
    faults.push(rowFault(row, missing, 'is missing: state both the unit and its side, or neither'));
    return null;
  }
  if (fluid !== undefined) return nameKey(fluid);
  faults.push(rowFault(row, 'fluid', 'is missing: state the name of the fluid'));
  return null;
}

const OWN = new Set(['fluid', 'tag', 'side']);

/** Values under the key they have in a row: `properties.table[].viscosity` is `viscosity`. */
function statedOf(row: SheetRow): JsonObject {
  const stated: JsonObject = {};
  for (const [path, value] of row.values) if (!OWN.has(path)) putAt(stated, rowKey(path), value);
  return stated;
}

function rowKey(path: string): string {
  return path.replace(/^properties\.(?:table\[\]\.|polynomial\.)?/, '');
}

function fluidOf(key: string, { rows, placeOf, first }: Gathered, faults: SheetFault[]): SheetFluid {
  const { properties, faults: found } = propertiesOfRows(rows);
  for (const { row, key: at, message } of found) {
    const place = placeOf.get(row) ?? first;
    const path = [...place.columns.keys()].find((candidate) => rowKey(candidate) === at) ?? null;
    faults.push(rowFault(place, path, message));
    // Units with this fluid need not tell it once more.
    place.unread.add(path ?? 'fluid');
  }
  const places = [...rows.polynomials, ...rows.table].map((row) => placeOf.get(row) ?? first);
  return { key, properties, rows: places, isUsed: false };
}

/** Where a field of the properties stands: `properties.table[2].viscosity` is in the third row of the fluid. */
export function placeInFluid(fluid: SheetFluid, field: string): { row: SheetRow; path: string | null } {
  const number = Number(/table\[(\d+)\]/.exec(field)?.[1] ?? 0);
  const property = /polynomial\.(\w+)/.exec(field)?.[1];
  const row =
    fluid.rows.find((candidate) => property !== undefined && candidate.values.get('property') === property) ??
    fluid.rows[number] ??
    fluid.rows[0]!;
  const key = field.replace(
    /^properties\.?(?:table(?:\[\d+\])?\.?|polynomial\.(?:\w+\.coefficients|\w+)?\.?)?/,
    '',
  );
  const path = [...row.columns.keys()].find((column) => rowKey(column) === key.split('.')[0]) ?? null;
  return { row, path };
}

/** The properties as they would be read back from the sheet that states them. */
export function propertiesAsSheetSays(properties: JsonObject): JsonObject {
  const { table, polynomials } = rowsOfProperties(properties);
  const read = (name: 'fluids' | 'polynomials') => (row: JsonObject) => {
    const back: JsonObject = {};
    for (const column of SHEET_TABLES[name].columns) {
      const key = rowKey(column.path);
      const value = key.split('.').reduce<unknown>((at, step) => (at as JsonObject | undefined)?.[step], row);
      if (OWN.has(column.path) || value === undefined) continue;
      const said = asSheetSays(column, value as JsonObject);
      if (said !== undefined) putAt(back, key, said);
    }
    return back;
  };
  const rows = { table: table.map(read('fluids')), polynomials: polynomials.map(read('polynomials')) };
  return propertiesOfRows(rows).properties;
}
