import type { FleetAddress, FleetSort } from '../fleet-address';
import { type FleetItem, findRows, groupRows, sortRows } from '../fleet-order';
import {
  type FleetFigures,
  type FleetKeys,
  type FleetRow,
  fleetFigures,
  fleetRow,
  keysOf,
} from '../fleet-row';
import { type Fleet, type FleetView, fleetFrame, fleetView } from '../fleet-view';
import type { UnitSystem } from '../format/unit-system';
import type { FleetUnit } from './fleet-unit';

/** A unit with what it is sorted, found and counted by. */
export type FleetEntry = FleetKeys & { unit: FleetUnit };

/**
 * A fleet in memory, with what was sorted out of it so far. It is never changed: when data change another takes its place.
 * `revision` says of which state of the data it is.
 */
export type FleetIndex = {
  revision: string;
  fleet: Fleet;
  /** In the order of their tags. */
  entries: readonly FleetEntry[];
  sorted: Map<FleetSort, readonly FleetEntry[]>;
  chosen: Map<string, ChosenRows>;
};

/** The rows of an address, under the heads of their groups. */
export type ChosenRows = { rows: number; items: FleetItem<FleetEntry>[]; heads: number[] };

/** A head of a group as it travels: how many units, and what they lose together [W]; null where nothing is known. */
export type GroupHead = { kind: 'group'; name: string; units: number; lostDuty: number | null };
export type WindowItem = GroupHead | { kind: 'row'; row: FleetRow; rank: number };

/** A part of a list too long to travel whole. */
export type FleetWindow = {
  revision: string;
  /** Place of the first item here in the whole list. */
  from: number;
  items: WindowItem[];
  /** Of the whole list: its rows, its items, and which of these are heads of groups. */
  rows: number;
  count: number;
  heads: number[];
};

/** What the fleet page is drawn from: everything around the rows, and the first of them. */
export type FleetPageContent = { view: FleetView; window: FleetWindow };

/** Addresses whose rows are kept sorted out. */
const MOST_CHOSEN = 40;

export function fleetEntry(unit: FleetUnit): FleetEntry {
  return { ...keysOf(unit), unit };
}

/** An index of a fleet; `entries` are in the order of their tags. */
export function fleetIndex(
  revision: string,
  fleet: Omit<Fleet, 'units' | 'keys'>,
  entries: readonly FleetEntry[],
): FleetIndex {
  const units = entries.map(({ unit }) => unit);
  return {
    revision,
    entries,
    fleet: { ...fleet, units, keys: entries },
    sorted: new Map(),
    chosen: new Map(),
  };
}

/** The rows of an address, sorted out once. */
export function chosenRows(index: FleetIndex, address: FleetAddress): ChosenRows {
  const { states, site, find, sort, group } = address;
  const key = JSON.stringify([states, site, find, sort, group]);
  const known = index.chosen.get(key);
  if (known !== undefined) return known;
  const rows = findRows(inOrder(index, sort), { states, site, find });
  const items = groupRows(rows, group);
  const heads = group === 'none' ? [] : items.flatMap(({ kind }, at) => (kind === 'group' ? [at] : []));
  const chosen = { rows: rows.length, items, heads };
  if (index.chosen.size >= MOST_CHOSEN) index.chosen.delete(index.chosen.keys().next().value!);
  index.chosen.set(key, chosen);
  return chosen;
}

function inOrder({ entries, sorted }: FleetIndex, sort: FleetSort): readonly FleetEntry[] {
  if (sort === 'tag') return entries;
  const known = sorted.get(sort) ?? sortRows(entries, sort);
  sorted.set(sort, known);
  return known;
}

/** A part of the list of an address, its rows drawn. */
export function fleetWindow(
  index: FleetIndex,
  address: FleetAddress,
  { from, items: most }: { from: number; items: number },
): FleetWindow {
  const { rows, items, heads } = chosenRows(index, address);
  const frame = fleetFrame(index.fleet, address);
  const { planned } = index.fleet;
  const drawn = items.slice(from, from + most).map((item): WindowItem => {
    if (item.kind === 'group') return headOf(item);
    const { unit } = item.row;
    return { kind: 'row', rank: item.rank, row: fleetRow(unit, frame, planned.get(unit.id)) };
  });
  return { revision: index.revision, from, items: drawn, rows, count: items.length, heads };
}

function headOf({ name, rows }: Extract<FleetItem<FleetEntry>, { kind: 'group' }>): GroupHead {
  const known = rows.flatMap(({ lostDuty }) => lostDuty ?? []);
  const lostDuty = known.length === 0 ? null : known.reduce((sum, duty) => sum + duty, 0);
  return { kind: 'group', name, units: rows.length, lostDuty };
}

/** What the page of an address shows around its rows. */
export function viewOfIndex({ fleet }: FleetIndex, address: FleetAddress, system: UnitSystem): FleetView {
  return fleetView(fleet, fleetFrame(fleet, address), system);
}

/** What the rows of an address say, so many at a time, in their order. */
export function* figuresOf(
  index: FleetIndex,
  address: FleetAddress,
  atOnce: number,
): Generator<FleetFigures[]> {
  const frame = fleetFrame(index.fleet, address);
  const { items } = chosenRows(index, address);
  for (let from = 0; from < items.length; from += atOnce) {
    yield items
      .slice(from, from + atOnce)
      .flatMap((item) => (item.kind === 'row' ? fleetFigures(item.row.unit, frame) : []));
  }
}
