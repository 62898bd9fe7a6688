import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { CHECK_REACH_MS } from '@/lib/core/checks/screen';
import { LEARNING_WINDOW_MS, learnScale } from '@/lib/core/clean/learn-scale';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { DEFAULT_HORIZON_DAYS, METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import { trendUnit } from '@/lib/core/pipeline/trend-unit';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { dailyFigures } from '@/lib/core/series/daily-figures';
import { fromLocalDay } from '@/lib/core/series/slice-daily';
import { unitResult } from '@/lib/report/unit-result';
import { listCleanings } from '@/lib/store/entities/events';
import { type StoredResult, saveResult } from '@/lib/store/entities/results';
import type { StoredUnit } from '@/lib/store/entities/units';
import { localDay } from '@/lib/time/local-clock';
import { localDays, startOfLocalDay } from '@/lib/time/local-day';
import type { Context } from './context';

const BEGINNING = 0;

export type UnitRequest = {
  /** "Today" [ms]: readings up to and including it are used; null without any reading at the site. */
  asOf: number | null;
  /** True where `asOf` was asked for and lies in the past: then readings at that instant itself are not used. */
  isPast: boolean;
  /** Oldest change since the last analysis [ms]; null = everything anew. */
  since: number | null;
  /** Mark under which the unit was due when this began; null where it was not. */
  dueMark: string | null;
  known: StoredResult | null;
};

/** Works one unit's results out and stores them: daily figures from the first changed day on, then the trend. */
export async function analyseUnit(context: Context, stored: StoredUnit, request: UnitRequest): Promise<void> {
  const { entities, series } = context.store;
  const exchanger = toExchanger(stored.unit);
  const asOf = request.asOf ?? context.now();
  const end = request.isPast ? asOf : asOf + 1;
  const cleanings = (await listCleanings(entities, stored.id)).map(({ at }) => at).filter((at) => at < end);
  const nominal = await series.nominalSensors(stored.id, end);
  const cleanScale = await scaleOf(context, stored, { exchanger, cleanings, nominal, end });
  const reference = { cleanScale, nominal };
  const since = isStale(request, stored, reference) ? BEGINNING : (request.since ?? BEGINNING);
  const daily = await updateDaily(context, stored, { exchanger, cleanings, ...reference, since, end });

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
    ...reference,
    result: unitResult({ ...stored, trend, asOf: request.asOf, economicDay: null }),
    trend,
  });
  if (request.dueMark !== null) await series.clearDue(stored.id, request.dueMark);
  // Results as of a past day must not pass for today's: the next ordinary analysis does this unit anew.
  if (request.isPast) await series.markDue(stored.id, BEGINNING);
}

function isStale(
  { known }: UnitRequest,
  stored: StoredUnit,
  reference: { cleanScale: number; nominal: number },
): boolean {
  return (
    known === null ||
    known.methodVersion !== METHOD_VERSION ||
    known.unitVersion !== stored.version ||
    known.cleanScale !== reference.cleanScale ||
    known.nominal !== reference.nominal
  );
}

type DailyInput = {
  exchanger: Exchanger;
  /** Instants of the cleanings [ms], ascending. */
  cleanings: number[];
  cleanScale: number;
  /** Bits of the sensors that hold a typed-in value over the whole record. */
  nominal: number;
  since: number;
  /** Readings before this instant are used [ms]. */
  end: number;
};

/**
 * Daily figures up to date: those of days that a change since `since` can reach are worked out again from the readings,
 * earlier ones stand. A reading's screening looks at most CHECK_REACH_MS to either side.
 */
async function updateDaily(context: Context, stored: StoredUnit, input: DailyInput): Promise<DailyColumns> {
  const { series } = context.store;
  const { timeZone } = stored.site;
  const span = await series.readingSpan(stored.id);
  if (Number.isFinite(input.since) && span !== null) {
    const oldest = Math.max(input.since - CHECK_REACH_MS, span.first);
    const fromDay = localDay(oldest, timeZone);
    const from = startOfLocalDay(fromDay, timeZone) - CHECK_REACH_MS;
    const readings = await series.readReadings(stored.id, from, input.end);
    const evaluation = evaluateReadings({
      exchanger: input.exchanger,
      settings: toCheckSettings(stored.unit),
      readings,
      cleanScale: input.cleanScale,
      nominal: input.nominal,
    });
    const daily = dailyFigures(evaluation, readings, {
      localDay: localDays(readings.time, timeZone),
      cleanings: input.cleanings,
      exchanger: input.exchanger,
    });
    await series.replaceDaily(stored.id, fromDay, fromLocalDay(daily, fromDay));
  }
  return series.readDaily(stored.id);
}

/** The clean reference's scale: 1 for the datasheet's, else learned after the first cleaning that can teach it. */
async function scaleOf(
  context: Context,
  stored: StoredUnit,
  input: Omit<DailyInput, 'cleanScale' | 'since'>,
): Promise<number> {
  const { exchanger, cleanings, nominal, end } = input;
  const { series } = context.store;
  if (exchanger.clean === 'datasheet') return 1;
  const span = await series.readingSpan(stored.id);
  if (span === null) return 1;
  const starts = cleanings.length > 0 ? cleanings : [span.first];
  for (const start of starts) {
    const readings = await series.readReadings(stored.id, start, Math.min(end, start + LEARNING_WINDOW_MS));
    const settings = toCheckSettings(stored.unit);
    const learned = learnScale(
      evaluateReadings({ exchanger, settings, readings, nominal }),
      cleanings.length > 0 ? [start] : [],
    );
    if (learned !== null) return learned.scale;
  }
  return 1;
}
