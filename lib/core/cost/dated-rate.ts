/** A price or emission factor per joule, from a local day on [days since 1970-01-01; money/J or kg/J]. */
export type DatedRate = { fromDay: number; perJoule: number };

/**
 * The rate that holds on a day: of those that began by then, the one that began last.
 *
 * @param rates ascending by day
 * @param day   local day [days since 1970-01-01]
 * @returns [per J]; null before the first and without any
 * @range  any
 * @source none: convention
 * @check  tests/core/cost/dated-rate.test.ts
 */
export function rateOn(rates: readonly DatedRate[], day: number): number | null {
  for (let i = rates.length - 1; i >= 0; i--) if (rates[i]!.fromDay <= day) return rates[i]!.perJoule;
  return null;
}
