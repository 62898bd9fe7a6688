import { DETAIL_COLUMNS } from './detail-columns';
import { FLUID_COLUMNS, POLYNOMIAL_COLUMNS, SITE_COLUMNS, SUPPLY_COLUMNS } from './other-columns';
import type { SheetTable, TableName } from './sheet-column';
import { UNIT_COLUMNS } from './unit-columns';

/** The sheets of the workbook that are filled in, in its order. */
export const SHEET_TABLES: Record<TableName, SheetTable> = {
  units: {
    name: 'units',
    title: 'Units',
    lead: 'One row per unit. Columns marked * are required; what is left empty is assumed.',
    columns: UNIT_COLUMNS,
    fixedColumns: 1,
  },
  details: {
    name: 'details',
    title: 'Details',
    lead: 'More of a unit, where it is known; one row per unit by its tag. All of it may be left out.',
    columns: DETAIL_COLUMNS,
    fixedColumns: 1,
  },
  fluids: {
    name: 'fluids',
    title: 'Fluids',
    lead: 'Properties of custom fluids: one row per temperature.',
    columns: FLUID_COLUMNS,
    fixedColumns: 1,
  },
  polynomials: {
    name: 'polynomials',
    title: 'Polynomials',
    lead: 'Custom fluids by polynomials of the temperature in °C: one row per property. Seldom needed.',
    columns: POLYNOMIAL_COLUMNS,
    fixedColumns: 1,
  },
  supplies: {
    name: 'supplies',
    title: 'Supplies',
    lead: 'What energy costs and emits, from a day on.',
    columns: SUPPLY_COLUMNS,
    fixedColumns: 2,
  },
  sites: { name: 'sites', title: 'Site', lead: 'One row per site.', columns: SITE_COLUMNS, fixedColumns: 1 },
};

/** The sheet that explains the others. */
export const HOW_TO_TITLE = 'How to fill this in';

/** Columns that describe a unit, on whichever sheet they stand. */
export const COLUMNS_OF_A_UNIT = [
  ...UNIT_COLUMNS,
  ...DETAIL_COLUMNS.filter(({ path }) => path !== 'tag'),
] as const;
