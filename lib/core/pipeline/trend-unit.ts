import { type RecordedCleaning, splitCycles } from '../cycles/split-cycles';
import type { Exchanger } from '../exchange/exchanger';
import { DAILY_FLOAT_COLUMNS, type DailyColumns } from '../series/daily-columns';
import { cycleGrowth, type GrowthPrior, priorFromCycles } from './cycle-growth';
import { dataHealth } from './data-health';
import { describeCycle } from './describe-cycle';
import { losses } from './energy-lost';
import { todaysFigures } from './todays-figures';
import type { UnitTrend } from './unit-trend';

/** Ended cycles whose growth is worked out: older ones say little of today's service [-] (own choice). */
export const FITTED_PAST_CYCLES = 12;

export type TrendInput = {
  exchanger: Exchanger;
  daily: DailyColumns;
  /** Recorded cleanings, ascending; those after `asOf` are left out. */
  cleanings: readonly RecordedCleaning[];
  /** "Today" [ms] and its local day of the site. */
  asOf: number;
  todayLocalDay: number;
  horizonDays: number;
  /** What like units say of the rate; used where no earlier cycle of the unit can tell. */
  prior?: GrowthPrior | null;
};

/**
 * Everything said of a unit on one day: cycles with their growth, limits with the days they are reached, state, losses,
 * data health.
 *
 * @param input unit, its daily figures and cleanings up to today, horizon [days]
 * @returns the trend in SI units and local days; what cannot be said is null
 * @range  any amount of data, none included
 * @source METHODS §7 to §10
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function trendUnit(input: TrendInput): UnitTrend {
  const { exchanger, todayLocalDay, horizonDays } = input;
  const daily = upTo(input.daily, todayLocalDay);
  const spans = splitCycles(
    daily,
    input.cleanings.filter(({ at }) => at <= input.asOf),
  );
  const running = spans.at(-1) ?? null;
  const past = spans.slice(0, -1).map((span, index) => {
    const isFitted = index >= spans.length - 1 - FITTED_PAST_CYCLES;
    return isFitted ? cycleGrowth(daily, span, { prior: null, clean: exchanger.clean }) : null;
  });
  const prior = priorFromCycles(past) ?? input.prior ?? null;
  const growth = running === null ? null : cycleGrowth(daily, running, { prior, clean: exchanger.clean });
  return {
    ...todaysFigures({ exchanger, daily, cycle: running, growth, todayLocalDay, horizonDays }),
    lastReading: lastAccepted(daily),
    cycles: spans.map((span, index) =>
      describeCycle(daily, span, past.length > index ? past[index]! : growth),
    ),
    growth,
    horizonDays,
    ...losses(daily, spans, todayLocalDay),
    health: dataHealth(daily, todayLocalDay),
  };
}

/** The rows up to and including a day, without copying. */
function upTo(daily: DailyColumns, day: number): DailyColumns {
  const end = daily.day.findLastIndex((own) => own <= day) + 1;
  if (end === daily.day.length) return daily;
  const part = {
    day: daily.day.subarray(0, end),
    readings: daily.readings.subarray(0, end),
    accepted: daily.accepted.subarray(0, end),
    off: daily.off.subarray(0, end),
    worstReason: daily.worstReason.subarray(0, end),
  } as DailyColumns;
  for (const name of DAILY_FLOAT_COLUMNS) part[name] = daily[name].subarray(0, end);
  return part;
}

function lastAccepted({ lastAccepted: instants }: DailyColumns): number | null {
  return instants.findLast((at) => !Number.isNaN(at)) ?? null;
}
