import { basisAt, evaluateOver } from '@/lib/core/fouling/evaluate-over';
import { DEFAULT_HORIZON_DAYS } from '@/lib/core/pipeline/method-version';
import { trendUnit } from '@/lib/core/pipeline/trend-unit';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { dailyFigures } from '@/lib/core/series/daily-figures';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import type { StoredUnit } from '@/lib/store/entities/units';
import { localDay } from '@/lib/time/local-clock';
import { localDays } from '@/lib/time/local-day';
import type { UnitInputs } from './unit-inputs';

type Inputs = Pick<UnitInputs, 'bases' | 'cleanings' | 'nominal'>;

/** Daily figures of some readings, each judged by the basis that held at its time. */
export function dailyOf(stored: StoredUnit, readings: ReadingColumns, inputs: Inputs): DailyColumns {
  const { bases, cleanings, nominal } = inputs;
  return dailyFigures(evaluateOver(bases, readings, nominal), readings, {
    localDay: localDays(readings.time, stored.site.timeZone),
    cleanings,
    // Pressure drops of the whole record are scaled to one flow, that of the equipment as it stands last.
    exchanger: bases.at(-1)!.exchanger,
  });
}

/** Cycles, growth, limits and state as of an instant [ms], by the equipment as it then stood. */
export function trendOf(
  stored: StoredUnit,
  daily: DailyColumns,
  { bases, cleanings, asOf }: Inputs & { asOf: number },
): UnitTrend {
  const { timeZone } = stored.site;
  return trendUnit({
    exchanger: basisAt(bases, asOf).exchanger,
    daily,
    cleanings: cleanings.map((at) => ({ at, localDay: localDay(at, timeZone) })),
    asOf,
    todayLocalDay: localDay(asOf, timeZone),
    horizonDays: DEFAULT_HORIZON_DAYS,
  });
}
