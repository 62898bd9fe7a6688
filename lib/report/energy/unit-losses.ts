import type { Loss, UncertainLoss } from '@/lib/contract/costs';
import { type DailyLosses, dailyLosses } from '@/lib/core/cost/daily-losses';
import { rateOn } from '@/lib/core/cost/dated-rate';
import { type PricedLosses, pricedLosses } from '@/lib/core/cost/priced-losses';
import { purchasedEnergy } from '@/lib/core/cost/purchased-energy';
import { type UnitRates, unitRates } from '@/lib/report/prices/unit-rates';
import type { AnalysedUnit, SupplyRecord } from '@/lib/report/records';
import type { EnergyPeriod } from './energy-period';
import { heatUncertainties } from './heat-uncertainty';
import { energyBought, NO_LOSS } from './loss';

/** What a unit lost in any stretch of its record. */
export type UnitLosses = {
  /** First local day that counts; null without any. */
  firstDay: number | null;
  lossIn: (period: EnergyPeriod) => Loss;
  /** The same with its uncertainty, which takes longer. */
  uncertainLossIn: (period: EnergyPeriod) => UncertainLoss;
  /** Mean extra flow of a unit whose outlet is held [kg/s]; null for others, and where it is not known. */
  extraFlowIn: (period: EnergyPeriod) => number | null;
};

/** @param supplies those of the unit's site that are in force */
export function unitLosses(unit: AnalysedUnit, supplies: readonly SupplyRecord[]): UnitLosses {
  const { record, daily, trend } = unit;
  const losses = dailyLosses({ exchanger: record.exchanger, daily, cycles: trend?.cycles ?? [] });
  const rates = unitRates(record.unit, supplies);
  const uncertaintyIn = uncertaintyOf(unit, rates);
  const efficiency = record.unit.energy?.efficiency ?? 1;
  const lossIn = (period: EnergyPeriod) => {
    const loss = lossBetween(losses, rates, period);
    return { ...loss, energyBought: energyBought(loss, efficiency) };
  };
  return {
    firstDay: losses.day[0] ?? null,
    lossIn,
    uncertainLossIn: (period) => {
      const loss = lossIn(period);
      return { ...loss, ...uncertaintyIn(period, loss) };
    },
    extraFlowIn: (period) => meanExtraFlow(losses, period),
  };
}

function lossBetween(
  losses: DailyLosses,
  { heat, pumping }: UnitRates,
  { from, to }: EnergyPeriod,
): Omit<Loss, 'energyBought'> {
  const between = { firstDay: from, lastDay: to };
  const money = pricedLosses(losses, { heat: heat.money, pumping: pumping.money }, between);
  if (money.days === 0) return NO_LOSS;
  const carbon = pricedLosses(losses, { heat: heat.carbon, pumping: pumping.carbon }, between);
  return lossOf(money, carbon);
}

function lossOf(priced: PricedLosses, carbon: PricedLosses): Omit<Loss, 'energyBought'> {
  const { heat, pumping, money, days, bridgedDays, unpricedDays, unpricedPumpingDays } = priced;
  return {
    energyLost: heat,
    pumping,
    money,
    carbon: carbon.money,
    days,
    bridgedDays,
    unpricedDays,
    unpricedPumpingDays,
  };
}

type Uncertainty = Pick<
  UncertainLoss,
  'energyLostUncertainty' | 'energyBoughtUncertainty' | 'moneyUncertainty'
>;

/** Days of a period whose uncertainty is worked out one by one, evenly spread; the others are taken as being like them. */
const MOST_ROWS = 60;

/** Uncertainty of a sum of days: systematic parts add, those of the days alone add in squares (JCGM 100, 5.1 and 5.2). */
function uncertaintyOf(unit: AnalysedUnit, { heat: rates }: UnitRates) {
  const ofRow = heatUncertainties(unit);
  const isHeld = unit.record.exchanger.losses.heldOutlet !== null;
  return (period: EnergyPeriod, { days, money }: Loss): Uncertainty => {
    const heat = { systematic: 0, square: 0 };
    const worth = { systematic: 0, square: 0 };
    let count = 0;
    for (const row of isHeld ? [] : someRows(unit, period)) {
      const own = ofRow(row);
      if (own === null) continue;
      count++;
      add(heat, own, 1);
      add(worth, own, rateOn(rates.money, unit.daily.day[row]!) ?? 0);
    }
    if (count === 0)
      return { energyLostUncertainty: null, energyBoughtUncertainty: null, moneyUncertainty: null };
    const all = days / count;
    const total = ({ systematic, square }: typeof heat) =>
      Math.hypot(all * systematic, Math.sqrt(all * square));
    return {
      energyLostUncertainty: total(heat),
      energyBoughtUncertainty: purchasedEnergy(total(heat), unit.record.unit.energy?.efficiency ?? 1),
      moneyUncertainty: money === null || rates.money.length === 0 ? null : total(worth),
    };
  };
}

function someRows({ daily }: AnalysedUnit, { from, to }: EnergyPeriod): number[] {
  const rows = Array.from(daily.day.keys()).filter(
    (row) => daily.day[row]! >= from && daily.day[row]! <= to && !Number.isNaN(daily.lostDuty[row]!),
  );
  const step = Math.ceil(rows.length / MOST_ROWS);
  return rows.filter((_, index) => index % step === 0);
}

function add(
  sum: { systematic: number; square: number },
  { systematic, random }: { systematic: number; random: number },
  factor: number,
): void {
  sum.systematic += factor * systematic;
  sum.square += (factor * random) ** 2;
}

function meanExtraFlow({ day, extraFlow }: DailyLosses, { from, to }: EnergyPeriod): number | null {
  const known = extraFlow.filter((flow, row) => !Number.isNaN(flow) && day[row]! >= from && day[row]! <= to);
  return known.length === 0 ? null : known.reduce((sum, flow) => sum + flow, 0) / known.length;
}
