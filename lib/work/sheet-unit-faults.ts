import type { Fault } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import { type Unit, unitSchema } from '@/lib/contract/fleet-file';
import { COLUMNS_OF_A_UNIT, SHEET_TABLES } from '@/lib/contract/fleet-sheet/tables';
import { rowFault } from '@/lib/ingest/fleet-sheet/read-table';
import type { SheetFault, SheetRows } from '@/lib/ingest/fleet-sheet/sheet-rows';
import { messageInWords } from '@/lib/report/setup/field-words';
import { unitFaults } from './register-fleet';
import { placeInFluid } from './sheet-fluids';
import { rowWith, type UnitDifference, type UnitRows } from './sheet-units';

/** A unit that can be registered, or at which cells something is wrong. */
export function checkedUnit(
  rows: UnitRows,
  difference: UnitDifference,
): { unit: Unit | null; faults: SheetFault[] } {
  // What follows from a cell of its fluid that cannot be read is not told once more for each unit.
  const unreadFluids = Object.entries(difference.fluids).filter(([, fluid]) =>
    fluid.rows.some(({ unread }) => unread.size > 0),
  );
  const checked = checkedFields(rows, difference);
  if (unreadFluids.length === 0) return checked;
  const isOfFluid = ({ row, sheet }: SheetFault) =>
    unreadFluids.some(([, fluid]) => fluid.rows.some((place) => place.row === row && place.sheet === sheet));
  return { unit: null, faults: checked.faults.filter((fault) => !isOfFluid(fault)) };
}

/**
 * What is wrong with a new unit of which only details are stated, in a workbook that has a sheet for units: most likely its tag is
 * misspelt, so that its missing columns are not told. Null for any other.
 */
export function strayDetails({ tag, rows }: UnitRows, tables: SheetRows[]): SheetFault | null {
  const [units, details] = [SHEET_TABLES.units.title, SHEET_TABLES.details.title];
  const isStray = rows.every(({ sheet }) => sheet === details) && tables.some(({ sheet }) => sheet === units);
  if (!isStray) return null;
  return rowFault(rows[0]!, 'tag', `${tag} stands on no row of ${units}; correct it, or add it there`);
}

/** Of a part that is missing as a whole, each required field is told. */
const NOTHING_STATED = { arrangement: {}, hot: {}, cold: {}, design: {} };

function checkedFields(
  rows: UnitRows,
  difference: UnitDifference,
): { unit: Unit | null; faults: SheetFault[] } {
  const unread = new Set(rows.rows.flatMap((row) => [...row.unread]));
  const place = (fault: Fault) => placed(rows, difference, fault);
  const parsed = unitSchema.safeParse({ ...NOTHING_STATED, ...difference.document });
  if (!parsed.success) {
    const faults = faultsOf(parsed.error).filter(
      ({ field }) => !isTold(unread, columnPath(difference, field)),
    );
    const told = faults.length > 0 || unread.size > 0 ? faults : faultsOf(parsed.error);
    return {
      unit: null,
      faults: [...told, ...withoutProperties(difference), ...withoutArea(difference, unread)].map(place),
    };
  }
  // What cannot be read would be told twice, by what follows from its not being there.
  if (unread.size > 0) return { unit: null, faults: [] };
  const missing = withoutProperties(difference);
  const prefix = `unit (${rows.tag})`;
  const faults =
    missing.length > 0
      ? missing
      : unitFaults(parsed.data, 'unit').map((fault) => ({
          ...fault,
          field: fault.field.slice(prefix.length).replace(/^\./, ''),
        }));
  return { unit: faults.length > 0 ? null : parsed.data, faults: faults.map(place) };
}

/** The schema looks for an area only once everything else is there. */
function withoutArea({ document }: UnitDifference, unread: ReadonlySet<string>): Fault[] {
  const isStated = document.area !== undefined || document.plates !== undefined;
  if (isStated || isTold(unread, 'area') || isTold(unread, 'plates')) return [];
  return [{ field: 'area', message: 'is missing: state it, or the number of plates and the area of one' }];
}

/** A custom fluid without properties, told where the fluid is named. */
function withoutProperties({ document }: UnitDifference): Fault[] {
  return (['hot', 'cold'] as const).flatMap((side) => {
    const stream = document[side] as { fluid?: string; name?: string; properties?: unknown } | undefined;
    if (stream?.fluid !== 'custom' || stream.properties !== undefined) return [];
    const message =
      stream.name === undefined
        ? 'is "custom": give the fluid a name in the next column, and its properties on the sheet "Fluids"'
        : `has no properties: write those of "${stream.name}" on the sheet "Fluids"`;
    return [{ field: `${side}.fluid`, message }];
  });
}

function isTold(unread: ReadonlySet<string>, path: string): boolean {
  return [...unread].some(
    (told) => told === path || told.startsWith(`${path}.`) || path.startsWith(`${told}.`),
  );
}

/** A field of the document as a column's path: `limits[1].value` is `limits.pressure-drop.hot.above`. */
function columnPath({ limitPaths }: UnitDifference, field: string): string {
  const limit = /^limits\[(\d+)\]/.exec(field);
  if (limit !== null) return limitPaths[Number(limit[1])] ?? 'limits';
  return field.replace(/\[(\d+)\]/g, '.$1');
}

function placed(unit: UnitRows, difference: UnitDifference, { field, message }: Fault): SheetFault {
  const said = messageInWords(message);
  const inFluid = /^(hot|cold)\.(properties\b.*)$/.exec(field);
  const fluid = inFluid === null ? undefined : difference.fluids[inFluid[1] as 'hot' | 'cold'];
  if (fluid !== undefined) {
    const { row, path } = placeInFluid(fluid, inFluid![2]!);
    return { ...rowFault(row, path, said), tag: unit.tag };
  }
  const path = columnPath(difference, field);
  const column =
    COLUMNS_OF_A_UNIT.find((candidate) => path === candidate.path || path.startsWith(`${candidate.path}.`)) ??
    COLUMNS_OF_A_UNIT.find((candidate) => candidate.path.startsWith(`${path}.`));
  const row = column === undefined ? null : rowWith(unit, column.path);
  if (row !== null) return { ...rowFault(row, column!.path, said), tag: unit.tag };
  const what = column === undefined ? said : `${column.heading}: ${said}; there is no such column here`;
  return { ...rowFault(unit.rows[0]!, 'tag', what), tag: unit.tag };
}
