import type { DatedRate } from '../cost/dated-rate';
import { rateOn } from '../cost/dated-rate';

const SECONDS_PER_DAY = 86_400;

/** A span in which a joule lost has one price [money/J]. */
type PriceSpan = { from: number; to: number; heat: number; pumping: number };

/** Integrals from age 0 of what is lost at each age [W·days]. */
type LossCurves = { lostDuty: (age: number) => number; pumping: (age: number) => number };

/**
 * Spans of the plan with one price of heat and of pumping work. Before the first price, without any, and while the plant is
 * out nothing is lost.
 *
 * @param plan   first day and day after the last; prices; spans in which the plant is out [local days]
 * @returns spans, ascending, without gaps
 * @range  any
 * @source none: convention
 * @check  tests/core/plan/loss-curve.test.ts
 */
export function priceSpans(plan: {
  from: number;
  to: number;
  heatRates: readonly DatedRate[];
  pumpingRates: readonly DatedRate[];
  outages: readonly { from: number; to: number }[];
}): PriceSpan[] {
  const { from, to, heatRates, pumpingRates, outages } = plan;
  const changes = [
    ...[...heatRates, ...pumpingRates].map(({ fromDay }) => fromDay),
    ...outages.flatMap((outage) => [outage.from, outage.to]),
  ].filter((day) => day > from && day < to);
  const edges = [...new Set([from, ...changes, to])].sort((a, b) => a - b);
  return edges.slice(1).map((end, i) => {
    const start = edges[i]!;
    const isOut = outages.some((outage) => outage.from <= start && start < outage.to);
    return {
      from: start,
      to: end,
      heat: isOut ? 0 : (rateOn(heatRates, start) ?? 0),
      pumping: isOut ? 0 : (rateOn(pumpingRates, start) ?? 0),
    };
  });
}

/**
 * Money lost from one day until each of several: ∫ (lost duty · price of heat + extra pumping · price of work) dt, the curves
 * linear between ages and held beyond the last.
 *
 * @param curves integrals of what is lost at each age
 * @param spans  prices, ascending
 * @param stretch `born`: day of age 0; `from`: day the counting starts; `until`: ascending [local days]
 * @returns money for each of `until`; 0 where it is not after `from`
 * @range  any
 * @source trapezoidal rule, exact for a curve linear between its points (Abramowitz & Stegun 25.4.2)
 * @check  tests/core/plan/loss-curve.test.ts
 */
export function moneyLost(
  curves: LossCurves,
  spans: readonly PriceSpan[],
  stretch: { born: number; from: number; until: readonly number[] },
): Float64Array {
  const { lostDuty, pumping } = curves;
  const { born, from, until } = stretch;
  const out = new Float64Array(until.length);
  let sum = 0;
  let reached = from;
  let at = 0;
  for (let i = 0; i < until.length; i++) {
    while (reached < until[i]! && at < spans.length) {
      const span = spans[at]!;
      const start = Math.max(reached, span.from);
      const end = Math.min(until[i]!, span.to);
      if (end > start && (span.heat !== 0 || span.pumping !== 0)) {
        const heat = lostDuty(end - born) - lostDuty(start - born);
        const work = pumping(end - born) - pumping(start - born);
        sum += SECONDS_PER_DAY * (span.heat * heat + span.pumping * work);
      }
      reached = Math.max(reached, end);
      if (until[i]! >= span.to) at += 1;
    }
    out[i] = sum;
  }
  return out;
}

/**
 * Integral from age 0 of a curve linear between its points; before age 0 the first value holds, after the last the last.
 *
 * @param ages   ascending from 0 [days]
 * @param values at each age [W]
 * @returns integral until an age [W·days]
 * @range  any age
 * @source trapezoidal rule, exact for a curve linear between its points (Abramowitz & Stegun 25.4.2)
 * @check  tests/core/plan/loss-curve.test.ts
 */
export function makeIntegral(ages: readonly number[], values: readonly number[]): (age: number) => number {
  const sums = new Float64Array(ages.length);
  for (let i = 1; i < ages.length; i++) {
    sums[i] = sums[i - 1]! + ((ages[i]! - ages[i - 1]!) * (values[i]! + values[i - 1]!)) / 2;
  }
  const last = ages.length - 1;
  return (age) => {
    if (last < 0) return 0;
    if (age <= ages[0]!) return (age - ages[0]!) * values[0]!;
    if (age >= ages[last]!) return sums[last]! + (age - ages[last]!) * values[last]!;
    const i = panelOf(ages, age);
    const along = age - ages[i]!;
    const slope = (values[i + 1]! - values[i]!) / (ages[i + 1]! - ages[i]!);
    return sums[i]! + along * (values[i]! + (slope * along) / 2);
  };
}

/** Index of the last age not above one that lies between the first and the last. */
function panelOf(ages: readonly number[], age: number): number {
  let low = 0;
  let high = ages.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (ages[middle]! <= age) low = middle;
    else high = middle;
  }
  return low;
}
