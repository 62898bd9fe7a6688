import { type FleetEntry, type FleetIndex, fleetEntry, fleetIndex } from '@/lib/report/fleet/fleet-index';
import { plannedByUnit } from '@/lib/report/fleet-view';
import { listOutages } from '@/lib/store/entities/events';
import { dataRevision, dueCount, newestChange } from '@/lib/store/entities/fleet-rows';
import { listPlanned } from '@/lib/store/entities/planned';
import { listSites } from '@/lib/store/entities/units';
import type { Store } from '@/lib/store/open-store';
import type { Context } from './context';
import { type KnownUnit, readEntered, readResults } from './known-fleet';

/** What this process knows of a fleet, brought up to date when data change. */
type Held = {
  index: FleetIndex;
  /** Number of the newest record of a change that is in it. */
  change: number;
  units: Map<number, KnownUnit>;
  entries: Map<number, FleetEntry>;
  /** When it was brought up to date [ms of a clock that only runs on], and how much time it may still take for that [ms]. */
  refreshedAt: number;
  credit: number;
};

/** While something changes all the time, bringing it up to date takes at most this share of it [-], after a time to begin with [ms]. */
const SHARE_OF_TIME = 0.2;
const MOST_CREDIT_MS = 2_000;

/** A page may be as wrong about the time of day as this [ms]. */
const CLOCK_STEP_MS = 60_000;

type Memory = {
  held: WeakMap<Store, Held>;
  underWay: WeakMap<Store, Promise<Held>>;
  /** What was read of the fleet before anything was served, for the first who asks; plain data, whoever reads it. */
  prepared: Held | null;
};
const MEMORY = Symbol.for('cleanby.fleet-index');
// Pages and routes are bundled apart, each with a copy of this module: what they know of a fleet is the process's.
const holder = globalThis as { [MEMORY]?: Memory };
holder[MEMORY] ??= { held: new WeakMap(), underWay: new WeakMap(), prepared: null };
const memory = holder[MEMORY];
const { held, underWay } = memory;

/**
 * The fleet as it stands in the database, from the memory of this process: only what changed since the last time is read.
 * While an analysis saves result after result, it is as it was a moment ago.
 */
export async function readFleetIndex(context: Context): Promise<FleetIndex> {
  const { store } = context;
  const revision = await dataRevision(store.entities);
  const known = held.get(store) ?? takePrepared(store);
  if (known !== undefined && (known.index.revision === revision || isTooSoon(known, revision)))
    return ofThisMinute(context, known);
  let running = underWay.get(store);
  if (running === undefined) {
    running = refresh(context, known ?? null, revision).finally(() => underWay.delete(store));
    underWay.set(store, running);
  }
  return (await running).index;
}

/** Reads the fleet for a server that is about to start: its first reader need not wait for that. */
export async function prepareFleetIndex(context: Context): Promise<void> {
  await readFleetIndex(context);
  memory.prepared = held.get(context.store) ?? null;
}

function takePrepared(store: Store): Held | undefined {
  const { prepared } = memory;
  if (prepared === null) return undefined;
  memory.prepared = null;
  held.set(store, prepared);
  return prepared;
}

/** Whether keeping up has taken its share of the time lately, and nobody waits for what they have just entered. */
function isTooSoon({ credit, refreshedAt, index }: Held, revision: string): boolean {
  const left = creditNow(credit, refreshedAt);
  return left < 0 && enteredIn(revision) === enteredIn(index.revision);
}

function creditNow(credit: number, since: number): number {
  return Math.min(MOST_CREDIT_MS, credit + SHARE_OF_TIME * (performance.now() - since));
}

/** The part of a revision that counts what people enter. */
function enteredIn(revision: string): string {
  return /entities\d*/.exec(revision)?.[0] ?? '';
}

/** What is said of the age of the data moves on though they do not. */
function ofThisMinute({ store, now }: Context, known: Held): FleetIndex {
  const { index } = known;
  const clock = now();
  if (Math.abs(clock - index.fleet.clock) < CLOCK_STEP_MS) return index;
  const later = fleetIndex(index.revision, { ...index.fleet, clock }, index.entries);
  held.set(store, { ...known, index: later });
  return later;
}

async function refresh(context: Context, known: Held | null, revision: string): Promise<Held> {
  const began = performance.now();
  const { entities } = context.store;
  // Before what it numbers is read: a change made meanwhile is read once more the next time.
  const change = await newestChange(entities);
  const units = known?.units ?? new Map<number, KnownUnit>();
  const entries = known?.entries ?? new Map<number, FleetEntry>();
  const touched = new Set([
    ...(await readEntered(context, units, known?.change ?? null)),
    ...(await readResults(context, units)),
  ]);
  for (const id of touched) entries.set(id, fleetEntry(units.get(id)!));
  const index = await indexOf(context, { revision, units, ordered: inOrder(entries, known, touched) });
  const now = performance.now();
  // What the first reading takes is not to be saved up for.
  const credit = known === null ? MOST_CREDIT_MS : creditNow(known.credit, known.refreshedAt) - (now - began);
  const kept = { index, change, units, entries, refreshedAt: now, credit };
  held.set(context.store, kept);
  return kept;
}

const collator = new Intl.Collator('en-GB', { numeric: true });

/** Entries in the order of their tags, which is found anew only where there are new units. */
function inOrder(entries: Map<number, FleetEntry>, known: Held | null, touched: Set<number>): FleetEntry[] {
  const before = known?.index.entries ?? [];
  if (before.length === entries.size)
    return before.map((entry) => (touched.has(entry.unit.id) ? entries.get(entry.unit.id)! : entry));
  return [...entries.values()].sort((a, b) => collator.compare(a.tag, b.tag));
}

type Found = { revision: string; units: Map<number, KnownUnit>; ordered: FleetEntry[] };

async function indexOf(context: Context, { revision, units, ordered }: Found): Promise<FleetIndex> {
  const { entities } = context.store;
  const [sites, outages, planned, due] = await Promise.all([
    listSites(entities),
    listOutages(entities),
    listPlanned(entities, { state: 'open' }),
    dueCount(entities),
  ]);
  const newest = newestOfSites(units);
  const clock = context.now();
  const now = newest.size === 0 ? clock : Math.max(...newest.values());
  return fleetIndex(
    revision,
    { sites, newest, now, clock, due, outages, planned: plannedByUnit(planned) },
    ordered,
  );
}

/** Newest instant of results by site. */
function newestOfSites(units: ReadonlyMap<number, KnownUnit>): Map<number, number> {
  const newest = new Map<number, number>();
  for (const { site, asOf } of units.values())
    if (asOf !== null && asOf > (newest.get(site.id) ?? Number.NEGATIVE_INFINITY)) newest.set(site.id, asOf);
  return newest;
}
