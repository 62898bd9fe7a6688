import {
  type FleetIndex,
  type FleetPageContent,
  figuresOf,
  fleetWindow,
  viewOfIndex,
} from '@/lib/report/fleet/fleet-index';
import { FIRST_ITEMS, WHOLE_UP_TO } from '@/lib/report/fleet/window-size';
import type { FleetAddress } from '@/lib/report/fleet-address';
import { fleetCsvHead, fleetCsvRows } from '@/lib/report/fleet-csv';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { Context } from './context';
import { readFleetIndex } from './fleet-index';

/**
 * What the fleet page shows: how many units there are, and as JSON everything around the rows and the first of them. As text it
 * passes through the making of a page untouched, once made for all who look at the same.
 */
export type FleetPage = { units: number; text: string };

/** What was drawn of an index so far, by what was asked for: many look at the same. */
type Drawn = { pages: Map<string, string>; windows: Map<string, string> };

const drawn = new WeakMap<FleetIndex, Drawn>();
/** So much of a kind is kept: a page is some 60 kB. */
const MOST_KEPT = 120;
/** Rows that a file is made of at once, between which other requests have their turn. */
const ROWS_AT_ONCE = 500;

/** The fleet page of an address, in the reader's units. */
export async function readFleetPage(
  context: Context,
  address: FleetAddress,
  system: UnitSystem,
): Promise<FleetPage> {
  const index = await readFleetIndex(context);
  const { length: units } = index.entries;
  const part = { from: address.from, items: units <= WHOLE_UP_TO ? 2 * WHOLE_UP_TO : FIRST_ITEMS };
  const { pages } = drawnOf(index);
  const text = kept(pages, `${system} ${keyOf(address, part)}`, () => {
    const view = viewOfIndex(index, address, system);
    return JSON.stringify({ view, window: fleetWindow(index, address, part) } satisfies FleetPageContent);
  });
  return { units, text };
}

/** A part of the fleet page's list as JSON. */
export async function readFleetWindow(
  context: Context,
  address: FleetAddress,
  items: number,
): Promise<string> {
  const index = await readFleetIndex(context);
  const part = { from: address.from, items };
  return kept(drawnOf(index).windows, keyOf(address, part), () =>
    JSON.stringify(fleetWindow(index, address, part)),
  );
}

/** All rows of an address as CSV, piece by piece. */
export async function* fleetCsvPieces(
  context: Context,
  address: FleetAddress,
  system: UnitSystem,
): AsyncGenerator<string> {
  const index = await readFleetIndex(context);
  const { lostUnit } = viewOfIndex(index, address, system);
  yield fleetCsvHead(lostUnit);
  for (const rows of figuresOf(index, address, ROWS_AT_ONCE)) {
    yield fleetCsvRows(rows, lostUnit);
    await new Promise((resolve) => setImmediate(resolve));
  }
}

type Part = { from: number; items: number };

function keyOf({ view: _, ...address }: FleetAddress, part: Part): string {
  return JSON.stringify([address, part]);
}

function drawnOf(index: FleetIndex): Drawn {
  const known = drawn.get(index) ?? { pages: new Map(), windows: new Map() };
  drawn.set(index, known);
  return known;
}

function kept<Value>(values: Map<string, Value>, key: string, make: () => Value): Value {
  const known = values.get(key);
  if (known !== undefined) return known;
  const made = make();
  if (values.size >= MOST_KEPT) values.delete(values.keys().next().value!);
  values.set(key, made);
  return made;
}
