import { basisAt, evaluateOver } from '@/lib/core/fouling/evaluate-over';
import { DEFAULT_HORIZON_DAYS } from '@/lib/core/pipeline/method-version';
import type { KnownTrend } from '@/lib/core/pipeline/standing';
import { trendUnit } from '@/lib/core/pipeline/trend-unit';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { dailyFigures } from '@/lib/core/series/daily-figures';
import { firstNotBefore } from '@/lib/core/series/first-not-before';
import { type ReadingColumns, sliceReadings } from '@/lib/core/series/reading-columns';
import type { StoredUnit } from '@/lib/store/entities/units';
import { localDay } from '@/lib/time/local-clock';
import { localDays } from '@/lib/time/local-day';
import type { Others } from './other-units';
import type { UnitInputs } from './unit-inputs';

type DailyInputs = Pick<UnitInputs, 'bases' | 'cleanings' | 'nominal' | 'judged'>;

/** Daily figures of the readings from an instant on [ms], each judged by the basis that held at its time and by its neighbours. */
export function dailyOf(
  stored: StoredUnit,
  readings: ReadingColumns,
  { bases, cleanings, nominal, judged, from = Number.NEGATIVE_INFINITY }: DailyInputs & { from?: number },
): DailyColumns {
  const rows = { from: firstNotBefore(readings.time, from), to: readings.time.length };
  const own = sliceReadings(readings, rows.from, rows.to);
  return dailyFigures(evaluateOver(bases, readings, { nominal, judged, rows }), own, {
    localDay: localDays(own.time, stored.site.timeZone),
    cleanings,
    // Pressure drops of the whole record are scaled to one flow, that of the equipment as it stands last.
    exchanger: bases.at(-1)!.exchanger,
  });
}

/** What a trend is worked out from besides daily figures; `others` and `known` may be left out. */
export type TrendInputs = Pick<UnitInputs, 'bases' | 'cleanings' | 'explainedFalls'> & {
  asOf: number;
  others?: Others;
  known?: KnownTrend | undefined;
};

/** Cycles, growth, limits and state as of an instant [ms], by the equipment as it then stood. */
export function trendOf(
  stored: StoredUnit,
  daily: DailyColumns,
  { bases, cleanings, explainedFalls, asOf, others, known }: TrendInputs,
): UnitTrend {
  const { timeZone } = stored.site;
  return trendUnit({
    exchanger: basisAt(bases, asOf).exchanger,
    daily,
    cleanings: cleanings.map((at) => ({ at, localDay: localDay(at, timeZone) })),
    explainedFalls,
    asOf,
    todayLocalDay: localDay(asOf, timeZone),
    horizonDays: DEFAULT_HORIZON_DAYS,
    ...others,
    known,
  });
}
