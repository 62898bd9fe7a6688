import { AppError } from '@/lib/contract/app-error';
import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import { allResults, type StoredResult } from '@/lib/store/entities/results';
import { listUnits, type StoredUnit } from '@/lib/store/entities/units';
import type { Due } from '@/lib/store/series/series-store';
import { localDay } from '@/lib/time/local-clock';
import { isoInZone } from '@/lib/time/local-day';
import { analyseUnit, NO_READING } from './analyse-unit';
import type { Context } from './context';
import { log } from './log';
import { isToldAlready, othersOf, tellingsOf } from './other-units';

export type AnalyseRequest = {
  /** One unit only; null = all. */
  tag?: string | null;
  /** Use only readings and cleanings before this instant [ms]; null = up to each site's newest reading. */
  asOf?: number | null;
  /** Work everything out anew, whether or not it is due. */
  all?: boolean;
  onProgress?: (done: number, of: number) => void;
};

export type Analysed = { analysed: string[]; upToDate: number; asOf: Record<string, string | null> };

/**
 * Brings results up to date: units whose readings, cleanings or datasheet changed, and all units of a site whose newest
 * reading has moved to another day. "Today" is each site's newest reading, so that an old record is judged as of its end.
 *
 * @throws AppError 'not-found' for an unknown tag
 */
export async function analyse(context: Context, request: AnalyseRequest = {}): Promise<Analysed> {
  const { entities, series } = context.store;
  const units = await listUnits(entities);
  const wanted = request.tag ? units.filter((unit) => unit.tag === request.tag) : units;
  if (request.tag && wanted.length === 0)
    throw new AppError('not-found', `There is no unit "${request.tag}"`);
  const [results, due, newest] = await Promise.all([
    allResults(entities),
    series.due(),
    series.newestReadings(),
  ]);
  const today = todayBySite(units, newest, request.asOf ?? null);
  const todo = wanted.filter((unit) => {
    const known = results.get(unit.id);
    return (
      request.all ||
      request.asOf ||
      due.has(unit.id) ||
      !isCurrent(known, unit, today.get(unit.site.id) ?? null)
    );
  });
  const asOfOf = (unit: StoredUnit) => today.get(unit.site.id) ?? null;
  const isPast = (request.asOf ?? null) !== null;
  const isAnew = request.all === true || isPast;
  const began = performance.now();
  const marks = isPast ? new Map<number, string>() : await marksOf(context, todo, due);
  for (const [index, unit] of todo.entries()) {
    const result = await analyseUnit(context, unit, {
      asOf: asOfOf(unit),
      isPast,
      since: isAnew ? null : (due.get(unit.id)?.since ?? Number.POSITIVE_INFINITY),
      dueMark: marks.get(unit.id) ?? null,
      known: results.get(unit.id) ?? null,
      others: othersOf(unit, units, tellingsOf(results, asOfOf(unit))),
    });
    results.set(unit.id, result);
    request.onProgress?.(index + 1, todo.length);
  }
  await tellEachOther(context, { todo, units, results, asOfOf, isPast });
  if (marks.size > 0) await series.clearDue(marks);
  if (todo.length > 0)
    log.info({ units: todo.length, ms: Math.round(performance.now() - began) }, 'analysed');
  return {
    analysed: todo.map(({ tag }) => tag),
    upToDate: wanted.length - todo.length,
    asOf: Object.fromEntries(
      wanted.map(({ site }) => [site.name, inZone(today.get(site.id) ?? null, site.timeZone)]),
    ),
  };
}

/**
 * The marks under which units are due from here to the end of the analysis, when all have been told of each other: one that
 * is stopped on the way leaves everything it looked at due.
 */
async function marksOf(
  { store }: Context,
  todo: readonly StoredUnit[],
  due: ReadonlyMap<number, Due>,
): Promise<Map<number, string>> {
  const unmarked = todo.filter(({ id }) => !due.has(id)).map(({ id }) => id);
  if (unmarked.length > 0) await store.series.markAllDue(unmarked, NO_READING);
  // Marks seen before stand for what was seen then: a change since has a newer one, which is left alone.
  const marks = new Map([...(unmarked.length === 0 ? [] : await store.series.due()), ...due]);
  return new Map(todo.flatMap(({ id }) => (marks.has(id) ? [[id, marks.get(id)!.mark] as const] : [])));
}

type Telling = {
  todo: readonly StoredUnit[];
  units: readonly StoredUnit[];
  results: Map<number, StoredResult>;
  asOfOf: (unit: StoredUnit) => number | null;
  isPast: boolean;
};

/** Once every unit has been gone through: those to which the others now say something else are projected again. */
async function tellEachOther(context: Context, telling: Telling): Promise<void> {
  const { todo, units, results, asOfOf, isPast } = telling;
  for (const unit of todo) {
    const known = results.get(unit.id)!;
    const asOf = asOfOf(unit);
    const others = othersOf(unit, units, tellingsOf(results, asOf));
    if (isToldAlready(known.trend, others)) continue;
    const since = Number.POSITIVE_INFINITY;
    results.set(
      unit.id,
      await analyseUnit(context, unit, { asOf, isPast, since, dueMark: null, known, others }),
    );
  }
}

/** Each site's "today": the asked-for instant, or just after its newest reading [ms]. */
function todayBySite(
  units: StoredUnit[],
  newest: Map<number, number>,
  asOf: number | null,
): Map<number, number> {
  const today = new Map<number, number>();
  for (const unit of units) {
    const last = asOf ?? newest.get(unit.id);
    if (last === undefined) continue;
    today.set(unit.site.id, Math.max(today.get(unit.site.id) ?? last, last));
  }
  return today;
}

function isCurrent(known: StoredResult | undefined, unit: StoredUnit, today: number | null): boolean {
  if (known === undefined || known.methodVersion !== METHOD_VERSION || known.unitVersion !== unit.version)
    return false;
  // Results that do not say what they were judged by come from before that was kept.
  if (known.basis.length === 0) return false;
  if (known.asOf === null || today === null) return known.asOf === today;
  return localDay(known.asOf, unit.site.timeZone) === localDay(today, unit.site.timeZone);
}

function inZone(instant: number | null, timeZone: string): string | null {
  return instant === null ? null : isoInZone(instant, timeZone);
}
