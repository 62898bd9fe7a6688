import { AppError } from '@/lib/contract/app-error';
import type { ReviewQuery, StatementRecord } from '@/lib/contract/review';
import type { ReviewedUnit, ReviewRecords } from '@/lib/report/review/review-records';
import { statementOf } from '@/lib/report/review/statement';
import { allCleanings, type StoredCleaning } from '@/lib/store/entities/events';
import { allResults, type StoredResult } from '@/lib/store/entities/results';
import { marksSince } from '@/lib/store/entities/review-marks';
import { statementsOn } from '@/lib/store/entities/statements';
import { listSites, listUnits, type StoredUnit, tagsOfSite } from '@/lib/store/entities/units';
import { dayNumber } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import { startOfLocalDay } from '@/lib/time/local-day';
import type { Context } from './context';
import { othersOf, type Teller, tellersOf } from './other-units';
import { isGood, replayStatement } from './review-statements';

/** A review looks back this far where nobody says otherwise [days]. */
const USUAL_DAYS = 7;

/**
 * Everything the review shows: what is said of every unit now, and what was said on the chosen day. Where that was not
 * kept, it is worked out and kept as such.
 *
 * @throws AppError 'not-found' for an unknown site
 */
export async function readReview(context: Context, query: ReviewQuery): Promise<ReviewRecords> {
  const { entities, series } = context.store;
  const sites = await listSites(entities);
  const site = sites.find(({ name }) => name === query.site);
  if (query.site !== undefined && site === undefined)
    throw new AppError('not-found', `There is no site "${query.site}"`);
  const wanted = await listUnits(entities, site && (await tagsOfSite(entities, site.id)));
  const [{ results, cleanings }, due, newest] = await Promise.all([
    resultsAndCleanings(context, wanted),
    series.due(),
    series.newestReadings(),
  ]);
  const today = newestDay(wanted, results);
  const sinceDay = query.since === undefined ? usualDay(today, context) : dayNumber(query.since);
  const analysed = wanted.flatMap((unit) => {
    const result = results.get(unit.id);
    return result === undefined ? [] : [{ unit, result, now: saidNow(unit, result, context) }];
  });
  const said = await saidOn(context, sinceDay, analysed);
  const reviewed = analysed.map(
    ({ unit, result, now }): ReviewedUnit => ({
      id: unit.id,
      tag: unit.tag,
      service: unit.unit.service ?? null,
      site: unit.site,
      before: said.get(unit.id)!,
      now,
      cleanings: cleanings.get(unit.id) ?? [],
      trend: result.trend,
      lastReceived: newest.get(unit.id) ?? null,
    }),
  );
  return {
    query,
    sinceDay,
    today,
    sites,
    units: reviewed,
    notAnalysed: wanted.filter(({ id }) => !results.has(id)).map(({ tag }) => tag),
    marks: await marksSince(entities, startOfFirst(sites, sinceDay)),
    clock: context.now(),
    due: wanted.filter(({ id }) => due.has(id)).length,
  };
}

/** Newest day that results of these units are as of; null without any. */
function newestDay(units: StoredUnit[], results: ReadonlyMap<number, StoredResult>): number | null {
  const days = units.flatMap(({ id, site }) => {
    const asOf = results.get(id)?.asOf ?? null;
    return asOf === null ? [] : [localDay(asOf, site.timeZone)];
  });
  return days.length === 0 ? null : Math.max(...days);
}

function usualDay(today: number | null, context: Context): number {
  return (today ?? localDay(context.now(), 'UTC')) - USUAL_DAYS;
}

/** The day begins first in the easternmost zone. */
function startOfFirst(sites: { timeZone: string }[], day: number): number {
  return Math.min(
    ...['UTC', ...sites.map(({ timeZone }) => timeZone)].map((zone) => startOfLocalDay(day, zone)),
  );
}

/** Units whose results are read at once. */
const UNITS_AT_ONCE = 200;

async function resultsAndCleanings({ store: { entities } }: Context, units: readonly StoredUnit[]) {
  const results = new Map<number, StoredResult>();
  const cleanings = new Map<number, StoredCleaning[]>();
  for (let from = 0; from < units.length; from += UNITS_AT_ONCE) {
    const ids = units.slice(from, from + UNITS_AT_ONCE).map(({ id }) => id);
    for (const [id, result] of await allResults(entities, ids)) results.set(id, result);
    for (const [id, done] of await allCleanings(entities, { unitId: { in: ids } })) cleanings.set(id, done);
  }
  return { results, cleanings };
}

type Analysed = { unit: StoredUnit; result: StoredResult; now: StatementRecord };

/** What was said of each unit on a day: as kept, else worked out; from its newest reading on, what is said now. */
async function saidOn(
  context: Context,
  day: number,
  analysed: readonly Analysed[],
): Promise<Map<number, StatementRecord>> {
  const said = await statementsOn(context.store.entities, day);
  let tellers: Teller[] | null = null;
  for (const { unit, result, now } of analysed) {
    if (day >= now.day) {
      said.set(unit.id, now);
      continue;
    }
    const kept = said.get(unit.id);
    if (kept !== undefined && isGood(kept, result)) continue;
    // What the others say is read only where something has to be worked out.
    tellers ??= tellersOf(await context.store.series.analysis.tellings());
    const others = othersOf(unit, tellers);
    said.set(unit.id, await replayStatement(context, unit, { day, result, others }));
  }
  return said;
}

function saidNow({ id, site }: StoredUnit, result: StoredResult, context: Context): StatementRecord {
  return {
    unitId: id,
    day: localDay(result.asOf ?? context.now(), site.timeZone),
    computedAt: result.computedAt,
    methodVersion: result.methodVersion,
    isAfterwards: false,
    statement: statementOf(result.trend),
  };
}
