/** Fewest readings whose scatter says more than the sensors' own figures [-]. */
const FEWEST_FOR_SCATTER = 3;
/** Asymptotic efficiency of the median against the mean for normal errors [-]. */
const MEDIAN_EFFICIENCY = 2 / Math.PI;

/**
 * Standard uncertainty of a daily median: the random part shrinks with the number of readings, the systematic does not.
 * The random part is the larger of what the sensors state and what the day's readings show; a median of n readings is
 * worth 2n/π of them (but at least one).
 *
 * @param figures combined and systematic uncertainty of one reading, scatter of the day's (1.4826·MAD) [any one unit];
 *   count [-]
 * @returns combined standard uncertainty of the daily figure [same unit]
 * @range  count ≥ 1
 * @source JCGM 100:2008 (GUM) 4.2 and 5.1; efficiency of the median: Kendall & Stuart, The Advanced Theory of Statistics, vol. 2
 * @check  tests/core/series/daily-figures.test.ts
 */
export function dailyUncertainty(figures: {
  combined: number;
  systematic: number;
  scatter: number;
  count: number;
}): number {
  const { combined, systematic, scatter, count } = figures;
  const stated = Math.sqrt(Math.max(0, combined * combined - systematic * systematic));
  const random = count >= FEWEST_FOR_SCATTER ? Math.max(stated, scatter) : stated;
  return Math.sqrt((random * random) / effectiveReadings(count) + systematic * systematic);
}

/**
 * Readings whose mean would be as certain as the median of these: 2n/π, but at least one.
 *
 * @param count readings behind a daily figure [-]
 * @returns [-], ≥ 1
 * @range  count ≥ 1
 * @source asymptotic efficiency of the median: Kendall & Stuart, The Advanced Theory of Statistics, vol. 2
 * @check  tests/core/series/daily-figures.test.ts
 */
export function effectiveReadings(count: number): number {
  return Math.max(1, MEDIAN_EFFICIENCY * count);
}
