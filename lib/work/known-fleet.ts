import { toExchanger } from '@/lib/contract/exchanger-from-unit';
import { type FleetUnit, statedAllowance } from '@/lib/report/fleet/fleet-unit';
import {
  SUMMARY_DAYS,
  SUMMARY_VERSION,
  type UnitSummary,
  unitSummary,
} from '@/lib/report/fleet/unit-summary';
import { completeTrend } from '@/lib/report/unit/complete-trend';
import {
  changedAfter,
  cleaningsSince,
  fleetSummaries,
  newestResult,
  resultsMadeSince,
  type StoredSummary,
} from '@/lib/store/entities/fleet-rows';
import { findResult } from '@/lib/store/entities/results';
import { listUnits } from '@/lib/store/entities/units';
import { DAY_MS } from '@/lib/time/calendar-day';
import type { Context } from './context';

/** A unit as this process knows it; instants of its results in ms, null before the first. */
export type KnownUnit = FleetUnit & { asOf: number | null; computedAt: number | null };

/** After more changes than this everything is read anew. */
const MOST_CHANGES = 500;
/** Clocks of the machines that analyse may be apart by so much [ms]. */
const CLOCKS_APART_MS = 600_000;
/** What can change in the row of a unit, by the subject of the record; a site's name and currency are in all of its rows. */
const OF_A_UNIT: ReadonlySet<string> = new Set(['unit', 'limit', 'cleaning', 'fall']);
const OF_ALL: ReadonlySet<string> = new Set(['site']);

/**
 * Reads what people entered since a record of a change (null: everything), and gives the numbers of the units it is about.
 */
export async function readEntered(
  context: Context,
  known: Map<number, KnownUnit>,
  since: number | null,
): Promise<Set<number>> {
  const { entities } = context.store;
  const tags = since === null ? null : await changedTags(context, since);
  if (tags !== null && tags.length === 0) return new Set();
  const units = await listUnits(entities, tags ?? undefined);
  const ids = units.map(({ id }) => id);
  const newest = (await newestResult(entities)) ?? context.now();
  const shownFrom = newest - SUMMARY_DAYS * DAY_MS;
  const cleanings = await cleaningsSince(entities, shownFrom, tags === null ? null : ids);
  for (const { id, tag, site, unit } of units) {
    const { summary = null, asOf = null, computedAt = null } = known.get(id) ?? {};
    known.set(id, {
      ...{ id, tag, site, service: unit.service ?? '', summary, asOf, computedAt },
      statedAllowance: statedAllowance({ exchanger: toExchanger(unit) }),
      cleanings: cleanings.get(id) ?? [],
    });
  }
  return new Set(ids);
}

/** Tags of the units that changes since a record are about; null where all may be meant. */
async function changedTags({ store }: Context, since: number): Promise<string[] | null> {
  const changes = await changedAfter(store.entities, since, MOST_CHANGES + 1);
  if (changes.length > MOST_CHANGES || changes.some(({ subject }) => OF_ALL.has(subject))) return null;
  const ofUnits = changes.filter(({ subject }) => OF_A_UNIT.has(subject));
  return [...new Set(ofUnits.map(({ name }) => name))];
}

/** Reads results that are newer than those known, and gives the numbers of their units. */
export async function readResults(context: Context, known: Map<number, KnownUnit>): Promise<Set<number>> {
  const changed = new Set<number>();
  for (const row of await fleetSummaries(context.store.entities, await newerResults(context, known))) {
    const unit = known.get(row.unitId);
    if (unit === undefined) continue;
    const { asOf, computedAt } = row;
    known.set(row.unitId, { ...unit, asOf, computedAt, summary: await summaryOf(context, row) });
    changed.add(row.unitId);
  }
  return changed;
}

/** Units whose results were made at another instant than those known, or at the newest: that may have been two in one. */
async function newerResults(
  { store }: Context,
  known: ReadonlyMap<number, KnownUnit>,
): Promise<number[] | null> {
  let newest = Number.NEGATIVE_INFINITY;
  for (const { computedAt } of known.values())
    newest = Math.max(newest, computedAt ?? Number.NEGATIVE_INFINITY);
  if (newest === Number.NEGATIVE_INFINITY) return null;
  const made = await resultsMadeSince(store.entities, newest - CLOCKS_APART_MS);
  return [...made].filter(([id, at]) => at === newest || known.get(id)?.computedAt !== at).map(([id]) => id);
}

/** The summary as kept, or worked out from the whole result where that was stored before summaries were. */
async function summaryOf(context: Context, { unitId, summary }: StoredSummary): Promise<UnitSummary | null> {
  const kept = summary === null ? null : (JSON.parse(summary) as UnitSummary);
  if (kept?.version === SUMMARY_VERSION) return kept;
  const stored = await findResult(context.store.entities, unitId);
  const trend = completeTrend(stored?.trend ?? null);
  if (stored === null || trend === null) return null;
  const from = Math.floor((stored.asOf ?? context.now()) / DAY_MS) - SUMMARY_DAYS;
  const daily = await context.store.series.readDaily(unitId, from - 1);
  return unitSummary({ trend, result: stored.result, daily });
}
