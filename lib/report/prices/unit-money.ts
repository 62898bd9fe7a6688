import type { Unit } from '@/lib/contract/fleet-file';
import type { UnitResult } from '@/lib/contract/results';
import { type DailyLosses, dailyLosses, SECONDS_PER_DAY } from '@/lib/core/cost/daily-losses';
import { type DatedRate, rateOn } from '@/lib/core/cost/dated-rate';
import { type PricedLosses, pricedLosses } from '@/lib/core/cost/priced-losses';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { LOSS_DAYS, LOST_DUTY_FIGURES } from '@/lib/core/pipeline/energy-lost';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import type { SupplyRecord } from '@/lib/report/records';
import { dayNumber, isoDay } from '@/lib/time/calendar-day';
import { unitRates } from './unit-rates';

/** What a unit's losses are priced from. */
export type LossInput = {
  unit: Pick<Unit, 'energy' | 'pumping'>;
  exchanger: Exchanger;
  trend: Pick<UnitTrend, 'cycles' | 'lostDuty'>;
  daily: DailyColumns;
  /** Those of the unit's site that are in force. */
  supplies: readonly SupplyRecord[];
  /** Local day of the site. */
  today: number;
};

type Periods = { sinceCleaning: PricedLosses; last30Days: PricedLosses; thisYear: PricedLosses };
type Money = Pick<UnitResult, 'energyLost' | 'pumping' | 'cost' | 'carbon'>;

/** What fouling cost on each day of the running cycle, of the last 30 days and of this year: all that a result tells of. */
export function recentLosses({ exchanger, daily, trend, today }: LossInput): DailyLosses {
  const since = trend.cycles.at(-1)?.startDay ?? today;
  const fromDay = Math.min(since, today - LOSS_DAYS + 1, firstOfYear(today));
  return dailyLosses({ exchanger, daily, cycles: trend.cycles, fromDay });
}

/** Energy, money and carbon lost: since the last cleaning, in the last 30 days, this year, and in a day as it is now. */
export function unitMoney(input: LossInput, currency: string, losses = recentLosses(input)): Money {
  const { trend, today } = input;
  const { heat, pumping } = unitRates(input.unit, input.supplies);
  const since = trend.cycles.at(-1)?.startDay ?? today + 1;
  const priced = (rates: { heat: DatedRate[]; pumping: DatedRate[] }) => ({
    ...periodsOf(losses, rates, { since, today }),
    perDay: trend.lostDuty === null ? null : perDay(losses, rates, { since, today }),
    isKnown: rates.heat.length + rates.pumping.length > 0,
  });
  const money = priced({ heat: heat.money, pumping: pumping.money });
  const carbon = priced({ heat: heat.carbon, pumping: pumping.carbon });
  const figures = ({ perDay, ...periods }: typeof money) => ({
    ...eachPeriod(periods, ({ money: sum }) => sum),
    perDay,
  });
  return {
    energyLost: eachPeriod(money, (sum) => (sum.days === 0 ? null : sum.heat)),
    pumping: eachPeriod(money, (sum) => sum.pumping),
    cost: money.isKnown
      ? { currency, ...figures(money), unpricedDays: eachPeriod(money, unpricedDaysOf) }
      : null,
    carbon: carbon.isKnown ? figures(carbon) : null,
  };
}

/** Days of which something has no price: it is not in the money. */
function unpricedDaysOf({ unpricedDays, unpricedPumpingDays }: PricedLosses): number {
  return Math.max(unpricedDays, unpricedPumpingDays);
}

function periodsOf(
  losses: DailyLosses,
  rates: { heat: DatedRate[]; pumping: DatedRate[] },
  { since, today }: { since: number; today: number },
): Periods {
  const from = (firstDay: number) => pricedLosses(losses, rates, { firstDay, lastDay: today });
  return {
    sinceCleaning: from(since),
    last30Days: from(today - LOSS_DAYS + 1),
    thisYear: from(firstOfYear(today)),
  };
}

function eachPeriod<Value>(periods: Periods, of: (sum: PricedLosses) => Value) {
  const { sinceCleaning, last30Days, thisYear } = periods;
  return { sinceCleaning: of(sinceCleaning), last30Days: of(last30Days), thisYear: of(thisYear) };
}

/** First local day of the calendar year of a day. */
export function firstOfYear(day: number): number {
  return dayNumber(`${isoDay(day).slice(0, 4)}-01-01`);
}

/** A day at today's rates, lost as on the last days with a figure of the running cycle; null where nothing has a rate. */
function perDay(
  losses: DailyLosses,
  rates: { heat: DatedRate[]; pumping: DatedRate[] },
  { since, today }: { since: number; today: number },
): number | null {
  const { heat, pumping } = recentPower(losses, { since, today });
  const parts = [
    { power: heat, rate: rateOn(rates.heat, today) },
    { power: pumping, rate: rateOn(rates.pumping, today) },
  ].flatMap(({ power, rate }) => (power === null || rate === null ? [] : power * rate * SECONDS_PER_DAY));
  return parts.length === 0 ? null : parts.reduce((sum, part) => sum + part, 0);
}

/** Mean lost duty and extra power of the pumps over the last seven days with figures of the running cycle [W]. */
function recentPower(
  { day, heat, pumping, isBridged }: DailyLosses,
  { since, today }: { since: number; today: number },
): { heat: number | null; pumping: number | null } {
  const rows: number[] = [];
  for (let row = day.length - 1; row >= 0 && day[row]! >= since && rows.length < LOST_DUTY_FIGURES; row--) {
    if (isBridged[row] === 0 && day[row]! <= today) rows.unshift(row);
  }
  const mean = (column: Float64Array) => {
    const known = rows.map((row) => column[row]!).filter((value) => !Number.isNaN(value));
    if (known.length === 0) return null;
    return known.reduce((sum, value) => sum + value, 0) / known.length / SECONDS_PER_DAY;
  };
  return { heat: mean(heat), pumping: mean(pumping) };
}
