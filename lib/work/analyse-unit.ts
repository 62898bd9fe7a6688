import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { CHECK_REACH_MS } from '@/lib/core/checks/screen';
import { learnScale } from '@/lib/core/clean/learn-scale';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { DEFAULT_HORIZON_DAYS, METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import { trendUnit } from '@/lib/core/pipeline/trend-unit';
import { dailyFigures } from '@/lib/core/series/daily-figures';
import { unitResult } from '@/lib/report/unit-result';
import { listCleanings } from '@/lib/store/entities/events';
import { type StoredResult, saveResult } from '@/lib/store/entities/results';
import type { StoredUnit } from '@/lib/store/entities/units';
import { localDay, localDays, startOfLocalDay } from '@/lib/time/local-day';
import type { Context } from './context';

const BEGINNING = 0;

export type UnitRequest = {
  /** "Today" [ms]: readings up to and including it are used; null without any reading at the site. */
  asOf: number | null;
  /** True where `asOf` was asked for and lies in the past: then readings at that instant itself are not used. */
  isPast: boolean;
  /** Oldest change since the last analysis [ms]; null = everything anew. */
  since: number | null;
  known: StoredResult | null;
};

/** Works one unit's results out and stores them: daily figures from the first changed day on, then the trend. */
export async function analyseUnit(context: Context, stored: StoredUnit, request: UnitRequest): Promise<void> {
  const { entities, series } = context.store;
  const exchanger = toExchanger(stored.unit);
  const asOf = request.asOf ?? context.now();
  const end = request.isPast ? asOf : asOf + 1;
  const cleanings = (await listCleanings(entities, stored.id)).map(({ at }) => at).filter((at) => at < end);
  const cleanScale = await scaleOf(context, stored, { exchanger, cleanings, end });
  const since = isStale(request, stored, cleanScale) ? BEGINNING : (request.since ?? BEGINNING);
  const daily = await updateDaily(context, stored, { exchanger, cleanings, cleanScale, since, end });

  const trend = trendUnit({
    exchanger,
    daily,
    cleanings: cleanings.map((at) => ({ at, localDay: localDay(at, stored.site.timeZone) })),
    asOf,
    todayLocalDay: localDay(asOf, stored.site.timeZone),
    horizonDays: DEFAULT_HORIZON_DAYS,
  });
  await saveResult(entities, {
    unitId: stored.id,
    asOf: request.asOf,
    computedAt: context.now(),
    methodVersion: METHOD_VERSION,
    unitVersion: stored.version,
    cleanScale,
    result: unitResult({ ...stored, trend, asOf: request.asOf, economicDay: null }),
    trend,
  });
  await series.clearDue(stored.id, since);
  // Results as of a past day must not pass for today's: the next ordinary analysis does this unit anew.
  if (request.isPast) await series.markDue(stored.id, BEGINNING);
}

function isStale({ known }: UnitRequest, stored: StoredUnit, cleanScale: number): boolean {
  return (
    known === null ||
    known.methodVersion !== METHOD_VERSION ||
    known.unitVersion !== stored.version ||
    known.cleanScale !== cleanScale
  );
}
