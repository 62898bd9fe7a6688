import { AppError } from '@/lib/contract/app-error';
import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import { allResults, type StoredResult } from '@/lib/store/entities/results';
import { listUnits, type StoredUnit } from '@/lib/store/entities/units';
import { localDay } from '@/lib/time/local-clock';
import { isoInZone } from '@/lib/time/local-day';
import { analyseUnit } from './analyse-unit';
import type { Context } from './context';
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
  for (const [index, unit] of todo.entries()) {
    const result = await analyseUnit(context, unit, {
      asOf: asOfOf(unit),
      isPast,
      since: isAnew ? null : (due.get(unit.id)?.since ?? Number.POSITIVE_INFINITY),
      dueMark: due.get(unit.id)?.mark ?? null,
      known: results.get(unit.id) ?? null,
      others: othersOf(unit, units, tellingsOf(results, asOfOf(unit))),
    });
    results.set(unit.id, result);
    request.onProgress?.(index + 1, todo.length);
  }
  await tellEachOther(context, { todo, units, results, asOfOf, isPast });
  return {
    analysed: todo.map(({ tag }) => tag),
    upToDate: wanted.length - todo.length,
    asOf: Object.fromEntries(
      wanted.map(({ site }) => [site.name, inZone(today.get(site.id) ?? null, site.timeZone)]),
    ),
  };
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
