import { CHECK_REACH_MS } from '@/lib/core/checks/screen';
import { basisAt } from '@/lib/core/fouling/evaluate-over';
import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import type { KnownTrend } from '@/lib/core/pipeline/past-cycles';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { fromLocalDay, upToLocalDay } from '@/lib/core/series/slice-daily';
import { suppliesInForce } from '@/lib/report/prices/supplies-in-force';
import { unitResult } from '@/lib/report/unit-result';
import { listCleanings } from '@/lib/store/entities/events';
import { type StoredResult, saveResult } from '@/lib/store/entities/results';
import { listSupplies } from '@/lib/store/entities/supplies';
import type { StoredUnit } from '@/lib/store/entities/units';
import { localDay } from '@/lib/time/local-clock';
import { startOfLocalDay } from '@/lib/time/local-day';
import type { Context } from './context';
import type { Others } from './other-units';
import { keepStatement } from './review-statements';
import { type UnitInputs, unitInputs } from './unit-inputs';
import { dailyOf, trendOf } from './unit-trend';

const BEGINNING = 0;

/** A unit due since here [ms] has the same readings as before: only what its results are worth has changed. */
export const NO_READING = Number.MAX_SAFE_INTEGER;

export type UnitRequest = {
  /** "Today" [ms]: readings up to and including it are used; null without any reading at the site. */
  asOf: number | null;
  /** True where `asOf` was asked for and lies in the past: then readings at that instant itself are not used. */
  isPast: boolean;
  /** Oldest change since the last analysis [ms]; null = everything anew. */
  since: number | null;
  /** Mark under which the unit is due; null where nothing of its own has changed. */
  dueMark: string | null;
  known: StoredResult | null;
  /** What the rest of the fleet says to the unit. */
  others: Others;
};

/** Works one unit's results out and stores them: daily figures from the first changed day on, then the trend. */
export async function analyseUnit(
  context: Context,
  stored: StoredUnit,
  request: UnitRequest,
): Promise<StoredResult> {
  const { entities, series } = context.store;
  const asOf = request.asOf ?? context.now();
  const today = localDay(asOf, stored.site.timeZone);
  const end = request.isPast ? asOf : asOf + 1;
  const inputs = await unitInputs(context, stored, { end, isPast: request.isPast });
  const since = isStale(request, stored, inputs) ? BEGINNING : sinceOf(request);
  // Results as of a past day must not pass for today's: the next ordinary analysis does this unit anew.
  if (request.isPast) await series.markDue(stored.id, BEGINNING);
  const daily = await updateDaily(context, stored, { inputs, since, end });
  const trend = trendOf(stored, daily, {
    ...inputs,
    asOf,
    others: request.others,
    known: since === BEGINNING ? undefined : knownTrend(request, stored, since),
  });
  const result: StoredResult = {
    unitId: stored.id,
    asOf: request.asOf,
    computedAt: context.now(),
    methodVersion: METHOD_VERSION,
    unitVersion: stored.version,
    basis: inputs.plan,
    nominal: inputs.nominal,
    result: unitResult({
      ...stored,
      ...(await worthOf(context, stored, end)),
      exchanger: basisAt(inputs.bases, asOf).exchanger,
      daily: upToLocalDay(daily, today),
      trend,
      today,
      asOf: request.asOf,
    }),
    trend,
  };
  await saveResult(entities, result);
  await keepStatement(context, stored, trend, today);
  // Its readings are done; what the rest of the fleet will have to say to it is not.
  if (request.dueMark !== null) await series.postponeDue(stored.id, request.dueMark, NO_READING);
  return result;
}

/** What energy and cleanings cost, as far as it was known before an instant [ms]. */
async function worthOf({ store }: Context, { id, site }: StoredUnit, end: number) {
  const [stated, cleanings] = await Promise.all([
    listSupplies(store.entities, { siteId: site.id }),
    listCleanings(store.entities, id),
  ]);
  return { supplies: suppliesInForce(stated), cleanings: cleanings.filter(({ at }) => at < end) };
}

/** The cycles that ended before the first change stand: a change reaches its own screening's reach back. */
function knownTrend({ known }: UnitRequest, { site }: StoredUnit, since: number): KnownTrend | undefined {
  if (known === null) return undefined;
  const changedSinceDay = Number.isFinite(since)
    ? localDay(since - CHECK_REACH_MS, site.timeZone)
    : Number.POSITIVE_INFINITY;
  return { trend: known.trend, changedSinceDay };
}

function sinceOf({ since }: UnitRequest): number {
  return since === NO_READING ? Number.POSITIVE_INFINITY : (since ?? BEGINNING);
}

function isStale({ known }: UnitRequest, stored: StoredUnit, { plan, nominal }: UnitInputs): boolean {
  return (
    known === null ||
    known.methodVersion !== METHOD_VERSION ||
    known.unitVersion !== stored.version ||
    // Written and read by the same code, so that equal bases are equal texts.
    JSON.stringify(known.basis) !== JSON.stringify(plan) ||
    known.nominal !== nominal
  );
}

type DailyInput = {
  inputs: UnitInputs;
  since: number;
  /** Readings before this instant are used [ms]. */
  end: number;
};

/**
 * Daily figures up to date: those of days that a change since `since` can reach are worked out again from the readings,
 * earlier ones stand. A reading's screening looks at most CHECK_REACH_MS to either side.
 */
async function updateDaily(
  context: Context,
  stored: StoredUnit,
  { inputs, since, end }: DailyInput,
): Promise<DailyColumns> {
  const { series } = context.store;
  const { timeZone } = stored.site;
  const span = await series.readingSpan(stored.id);
  if (Number.isFinite(since) && span !== null) {
    const oldest = Math.max(since - CHECK_REACH_MS, span.first);
    const fromDay = localDay(oldest, timeZone);
    const from = startOfLocalDay(fromDay, timeZone) - CHECK_REACH_MS;
    const readings = await series.readReadings(stored.id, from, end);
    const daily = dailyOf(stored, readings, inputs);
    await series.replaceDaily(stored.id, fromDay, fromLocalDay(daily, fromDay));
  }
  return series.readDaily(stored.id);
}
