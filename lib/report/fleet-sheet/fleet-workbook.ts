import type { DatedPrice, Site, Unit } from '@/lib/contract/fleet-file';
import { rowsOfProperties } from '@/lib/contract/fleet-sheet/fluid-rows';
import { type Json, type JsonObject, valueAt } from '@/lib/contract/fleet-sheet/paths';
import type { TableName } from '@/lib/contract/fleet-sheet/sheet-column';
import { SHEET_TABLES } from '@/lib/contract/fleet-sheet/tables';
import { formOf } from '@/lib/contract/fleet-sheet/unit-form';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { howToSheet } from './how-to-sheet';
import type { PlainSheet } from './plain-sheet';
import { type RowValues, tableSheet } from './table-sheet';

export type SheetUnit = { site: string; version: number; unit: Unit };
export type SheetPrice = { site: string; supply: string; statedAt: string } & DatedPrice;
export type FleetSheetContent = { sites: Site[]; units: SheetUnit[]; prices: SheetPrice[] };

/** The sheets of the fleet template, with the units given. */
export function fleetWorkbook(content: FleetSheetContent, system: UnitSystem): PlainSheet[] {
  const units = content.units.map((unit) => ({ ...unit, form: formOf(unit.unit) }));
  const rows: Record<TableName, RowValues[]> = {
    units: units.map(({ site, version, form }) => unitRow('units', { ...form, site, version })),
    details: units.map(({ form }) => unitRow('details', form)),
    ...fluidRows(content.units),
    supplies: content.prices.map(priceRow),
    sites: content.sites.map(
      ({ name, timeZone, currency }) => new Map(Object.entries({ name, timeZone, currency })),
    ),
  };
  const sheets = (Object.keys(SHEET_TABLES) as TableName[]).map((name) =>
    tableSheet(SHEET_TABLES[name], rows[name], system),
  );
  return [...sheets, howToSheet()];
}

function unitRow(table: 'units' | 'details', form: JsonObject): RowValues {
  const row = new Map<string, Json>();
  for (const { path } of SHEET_TABLES[table].columns) {
    const value = valueAt(form, path);
    if (value !== undefined) row.set(path, value);
  }
  return row;
}

function priceRow({ site, supply, statedAt, from, price, carbon }: SheetPrice): RowValues {
  const row = new Map<string, Json>([
    ['site', site],
    ['supplies[].name', supply],
    ['supplies[].dated[].from', from],
    ['stated', statedAt],
  ]);
  if (price !== undefined) row.set('supplies[].dated[].price', price);
  if (carbon !== undefined) row.set('supplies[].dated[].carbon', carbon);
  return row;
}

type Owned = { owner: JsonObject; properties: JsonObject };

/** Custom fluids once by name, where all units mean the same by it; else by unit and side. */
function fluidRows(units: SheetUnit[]): Record<'fluids' | 'polynomials', RowValues[]> {
  const owned = new Map<string, Owned>();
  const meant = meaningByName(units);
  for (const { tag, side, stream } of streamsWithProperties(units)) {
    const properties = stream.properties as JsonObject;
    const name = stream.fluid === 'custom' ? nameOf(stream) : null;
    const isShared = name !== null && meant.get(name)?.size === 1;
    if (isShared) owned.set(`name ${name}`, { owner: { fluid: stream.name! }, properties });
    else {
      const named: JsonObject = stream.name === undefined ? {} : { fluid: stream.name };
      owned.set(`unit ${tag} ${side}`, { owner: { ...named, tag, side }, properties });
    }
  }
  const rows = { fluids: [] as RowValues[], polynomials: [] as RowValues[] };
  for (const { owner, properties } of owned.values()) {
    const { table, polynomials } = rowsOfProperties(properties);
    rows.fluids.push(...table.map((row) => fluidRow('fluids', { ...owner, ...row })));
    rows.polynomials.push(...polynomials.map((row) => fluidRow('polynomials', { ...owner, ...row })));
  }
  return rows;
}

function meaningByName(units: SheetUnit[]): Map<string, Set<string>> {
  const meant = new Map<string, Set<string>>();
  for (const { stream } of streamsWithProperties(units)) {
    const name = nameOf(stream);
    if (name === null) continue;
    meant.set(name, (meant.get(name) ?? new Set()).add(JSON.stringify(stream.properties)));
  }
  return meant;
}

function nameOf({ name }: Unit['hot']): string | null {
  const plain = name?.trim().toLowerCase() ?? '';
  return plain === '' ? null : plain;
}

function streamsWithProperties(units: SheetUnit[]) {
  return units.flatMap(({ unit }) =>
    (['hot', 'cold'] as const)
      .map((side) => ({ tag: unit.tag, side, stream: unit[side] }))
      .filter(({ stream }) => stream.properties !== undefined),
  );
}

function fluidRow(table: 'fluids' | 'polynomials', row: JsonObject): RowValues {
  const values = new Map<string, Json>();
  for (const { path } of SHEET_TABLES[table].columns) {
    const value = valueAt(row, path.replace(/^properties\.(?:table\[\]\.|polynomial\.)?/, ''));
    if (value !== undefined) values.set(path, value);
  }
  return values;
}
