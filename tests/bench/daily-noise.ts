import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { median } from '@/lib/core/stats/quantile';
import { medianAbsoluteDeviation, NORMAL_CONSISTENCY } from '@/lib/core/stats/spread';
import type { Truth } from '@/seed/generate/generate-readings';

/** How far daily figures lie off the true growth: their common offset and their scatter about it, as shares of the limit. */
export type DailyNoise = { offset: number; scatter: number };

type Against = {
  localDay: Int32Array;
  truth: Truth;
  /** Deposit from which a learned reference counts [m²·K/W]. */
  countedAsClean: number;
};

/** Error of each daily figure against the true growth at its midday, as share of the limit; NaN without a figure. */
export function dailyErrors(daily: DailyColumns, { localDay, truth, countedAsClean }: Against): Float64Array {
  let reading = 0;
  return daily.foulingResistance.map((figure, row) => {
    const first = reading;
    while (localDay[reading] === daily.day[row]) reading++;
    const deposit = truth.smoothFoulingResistance[(first + reading) >> 1]!;
    return (figure + countedAsClean - deposit) / truth.limit;
  });
}

/** Common offset and scatter of some errors. */
export function noiseOf(errors: Float64Array): DailyNoise {
  const known = errors.filter((error) => !Number.isNaN(error));
  return { offset: median(known), scatter: NORMAL_CONSISTENCY * medianAbsoluteDeviation(known) };
}
