import type { Unit } from '@/lib/contract/fleet-file';
import { type DailyLosses, SECONDS_PER_DAY } from '@/lib/core/cost/daily-losses';
import { type DatedRate, rateOn } from '@/lib/core/cost/dated-rate';
import { pricedLosses } from '@/lib/core/cost/priced-losses';
import { type WholeCycleCurve, wholeCycleCurve } from '@/lib/core/cost/whole-cycle-curve';
import type { Outlook } from '@/lib/core/pipeline/outlook';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { type UsualCleaning, usualCleaning } from '@/lib/report/plan/usual-cleaning';
import type { CleaningRecord } from '@/lib/report/records';
import { DAY_MS } from '@/lib/time/calendar-day';
import { type LossInput, recentLosses } from './unit-money';
import { unitRates } from './unit-rates';

export type CleaningDayInput = Omit<LossInput, 'trend' | 'unit'> & {
  unit: Pick<Unit, 'energy' | 'pumping' | 'cleaning'>;
  trend: UnitTrend;
  /** The recorded ones say what the next one costs and takes. */
  cleanings: readonly CleaningRecord[];
};

/** Why no day can be called the best. */
export type NoCleaningDay = 'no-price' | 'no-cleaning-cost' | 'no-outlook';

/** Mean cost of the running cycle by the day it is cleaned on; days are local days of the site, money its currency. */
export type CleaningDay = {
  curve: WholeCycleCurve;
  /** Day of the least mean cost, today or before where that has passed; null where it still falls at the horizon. */
  bestDay: number | null;
  cleaning: UsualCleaning;
  /** Money lost while it is out of service, and where that came from. */
  downtimeCost: number;
  downtimeFrom: 'outage' | 'datasheet' | 'duty';
  outageDays: number;
  /** First day of the running cycle, and money lost since, today included. */
  startDay: number;
  lossSoFar: number;
};

/**
 * When cleaning costs least, from what the running cycle has cost so far, what it is expected to cost at the prices known
 * today, and what a cleaning costs.
 */
export function cleaningDay(
  input: CleaningDayInput,
  losses: DailyLosses = recentLosses(input),
): CleaningDay | NoCleaningDay {
  const { unit, trend, supplies, today, cleanings } = input;
  const { heat, pumping } = unitRates(unit, supplies);
  const rates = { heat: heat.money, pumping: pumping.money };
  const heatRate = rateOn(rates.heat, today);
  if (heatRate === null && rateOn(rates.pumping, today) === null) return 'no-price';
  const cleaning = usualCleaning(unit, cleanings);
  if (!(cleaning.cost > 0)) return 'no-cleaning-cost';
  const running = trend.cycles.at(-1);
  const { outlook } = trend;
  if (outlook === null || running === undefined) return 'no-outlook';
  const { startDay } = running;
  const lostUntil = lossesSoFar(losses, rates, { startDay, today });
  const outageDays = cleaning.durationMs / DAY_MS;
  const downtime = downtimeOf(unit, { outlook, heatRate: heatRate ?? 0, outageDays });
  const fixed = { cleaningCost: cleaning.cost, downtimeCost: downtime.cost, outageDays };
  const curve = wholeCycleCurve({
    ...fixed,
    lostUntil,
    ages: outlook.ageDays,
    lossRates: outlook.ageDays.map((age, i) => lossPerDay(outlook, rates, { day: today + age, i })),
  });
  return {
    curve,
    bestDay: curve.least === null ? null : today + Math.round(curve.least.day),
    cleaning,
    downtimeCost: downtime.cost,
    downtimeFrom: downtime.from,
    outageDays,
    startDay,
    lossSoFar: lostUntil.at(-1) ?? 0,
  };
}

type Rates = { heat: readonly DatedRate[]; pumping: readonly DatedRate[] };

function lossPerDay(outlook: Outlook, rates: Rates, { day, i }: { day: number; i: number }): number {
  const heat = outlook.lostDuty[i]! * (rateOn(rates.heat, day) ?? 0);
  const pumping = outlook.isPumpingKnown ? outlook.pumping[i]! * (rateOn(rates.pumping, day) ?? 0) : 0;
  return (heat + pumping) * SECONDS_PER_DAY;
}

/** In an outage the plant stands anyway; else what an hour out of service costs, or the price of its whole duty. */
function downtimeOf(
  { cleaning }: CleaningDayInput['unit'],
  { outlook, heatRate, outageDays }: { outlook: Outlook; heatRate: number; outageDays: number },
): { cost: number; from: CleaningDay['downtimeFrom'] } {
  if (cleaning?.inOutageOnly) return { cost: 0, from: 'outage' };
  if (cleaning?.downtimePerHour !== undefined)
    return { cost: cleaning.downtimePerHour * outageDays * 24, from: 'datasheet' };
  return { cost: Math.max(0, outlook.duty) * heatRate * outageDays * SECONDS_PER_DAY, from: 'duty' };
}

/** Money lost since the cycle began, up to the end of each of its days. */
function lossesSoFar(
  losses: DailyLosses,
  rates: Rates,
  { startDay, today }: { startDay: number; today: number },
): number[] {
  let lost = 0;
  return Array.from({ length: today - startDay + 1 }, (_, index) => {
    const day = startDay + index;
    lost += pricedLosses(losses, rates, { firstDay: day, lastDay: day }).money ?? 0;
    return lost;
  });
}
