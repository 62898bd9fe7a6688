import type { UnitTrend } from './unit-trend';

/** Without an accepted figure for this long nothing is said of a unit's state [days] (own choice). */
export const NO_DATA_DAYS = 14;
/** Near its limit: the median crossing lies within this many days, or this share of the limit is used (own choice). */
export const NEAR_LIMIT_DAYS = 30;
export const NEAR_LIMIT_SHARE = 0.9;
/** Clean: less than this share of the limit is used (own choice). */
export const CLEAN_SHARE = 0.1;

/**
 * State of a unit with recent figures.
 *
 * @param today share of the governing limit used [-], null where no fouling leads to any limit; whether a limit is
 *   exceeded; days until the governing limit's median crossing, null where not within the horizon
 * @returns over-limit at or above a limit; near-limit within 30 days or from 90 %; clean below 10 %; else fouling
 * @range  any
 * @source own choice, stated in the constants
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function unitState(today: {
  used: number | null;
  isExceeded: boolean;
  daysToLimit: number | null;
}): Exclude<UnitTrend['state'], 'no-data'> {
  if (today.isExceeded) return 'over-limit';
  const isNear = today.daysToLimit !== null && today.daysToLimit <= NEAR_LIMIT_DAYS;
  if (isNear || (today.used ?? 0) >= NEAR_LIMIT_SHARE) return 'near-limit';
  return (today.used ?? 0) < CLEAN_SHARE ? 'clean' : 'fouling';
}
