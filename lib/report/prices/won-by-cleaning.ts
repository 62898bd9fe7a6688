import { SECONDS_PER_DAY } from '@/lib/core/cost/daily-losses';
import { type DatedRate, rateOn } from '@/lib/core/cost/dated-rate';
import type { CleaningEffect } from '@/lib/core/cycles/cleaning-result';
import { cycleRows } from '@/lib/core/cycles/cycle-rows';
import type { WonDuty } from '@/lib/core/cycles/energy-saved';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { withoutFlowDependence } from '@/lib/core/pipeline/flow-dependence';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { wonDutyOf } from '@/lib/core/pipeline/won-duty';
import type { DailyColumns } from '@/lib/core/series/daily-columns';

/** What a cleaning has returned so far: energy [J], money at the prices of its days, the day on which it had paid for itself. */
type Won = {
  energy: number;
  money: number | null;
  moneyUncertainty: number | null;
  paidBackDay: number | null;
};

/** A unit, its daily figures, and what its days are judged by. */
type CleanedUnit = {
  exchanger: Exchanger;
  daily: DailyColumns;
  trend: Pick<UnitTrend, 'cycles' | 'flowDependence'>;
};

/** The same made ready once for all its cleanings. */
export type WinningUnit = {
  daily: DailyColumns;
  /** A valve holds an outlet: the duty is fixed. */
  isHeld: boolean;
  cycles: { start: number | null; from: number; to: number }[];
  wonDuty: WonDuty;
};

/** Makes a unit ready to be asked what its cleanings won. */
export function winningUnit({ exchanger, daily: asEvaluated, trend }: CleanedUnit): WinningUnit {
  // As the figures before and after each cleaning were judged.
  const daily = withoutFlowDependence(asEvaluated, trend.flowDependence);
  return {
    daily,
    isHeld: exchanger.losses.heldOutlet !== null,
    cycles: cycleRows(daily, trend.cycles),
    wonDuty: wonDutyOf(exchanger, daily),
  };
}

/** A recorded cleaning [ms] with what it did, and its cost. */
type PaidCleaning = { at: number; effect: CleaningEffect | null; cost: number | null };

/**
 * Day by day until the next cleaning or today: the duty less what the unit would have transferred at the same inlets and
 * flows had it stayed as fouled as just before; null where no day tells, and where a valve holds the outlet.
 */
export function wonByCleaning(
  { daily, isHeld, cycles, wonDuty }: WinningUnit,
  { at, effect, cost }: PaidCleaning,
  rates: readonly DatedRate[],
): Won | null {
  if (effect === null || isHeld) return null;
  const won: Won = { energy: 0, money: null, moneyUncertainty: null, paidBackDay: null };
  let days = 0;
  const { from, to } = cycles.find(({ start }) => start === at) ?? { from: 0, to: 0 };
  for (let row = from; row < to; row++) {
    const duty = Number.isNaN(daily.foulingResistance[row]!) ? Number.NaN : wonDuty(row, effect.before);
    if (Number.isNaN(duty)) continue;
    days++;
    won.energy += duty * SECONDS_PER_DAY;
    const rate = rateOn(rates, daily.day[row]!);
    if (rate === null) continue;
    // The error of the difference between before and after is the same on every day.
    const spread = wonDuty(row, effect.before + effect.recoveredUncertainty) - duty;
    won.money = (won.money ?? 0) + duty * SECONDS_PER_DAY * rate;
    won.moneyUncertainty = (won.moneyUncertainty ?? 0) + Math.abs(spread) * SECONDS_PER_DAY * rate;
    if (won.paidBackDay === null && cost !== null && won.money >= cost) won.paidBackDay = daily.day[row]!;
  }
  return days === 0 ? null : won;
}
