import { firstNotBefore } from '../series/first-not-before';
import type { DailyLosses } from './daily-losses';
import { type DatedRate, rateOn } from './dated-rate';

/** What a joule costs or emits: of heat not transferred (efficiency or COP already in it), and of work of the pumps. */
export type LossRates = { heat: readonly DatedRate[]; pumping: readonly DatedRate[] };

/** Losses over a period with what they cost (or emit). */
export type PricedLosses = {
  /** Days that count, and those of them on the line between two figures. */
  days: number;
  bridgedDays: number;
  /** [J] */
  heat: number;
  /** [J]; null where no day tells. */
  pumping: number | null;
  /** [money, or kg]; null where nothing of it has a rate. */
  money: number | null;
  /** Days whose lost heat, and whose work of the pumps, has no rate: they are not in `money`. */
  unpricedDays: number;
  unpricedPumpingDays: number;
};

/**
 * Losses over a period, each day at the rates that held on it. The same for money and for CO2e.
 *
 * @param losses  by day
 * @param rates   ascending by day [money/J, or kg/J]
 * @param between local days to count, both included
 * @returns sums [J, money]; a day before the first rate counts as unpriced, not as free
 * @range  any; negative where the unit did better than its clean reference
 * @source METHODS §10
 * @check  tests/core/cost/priced-losses.test.ts
 */
export function pricedLosses(
  losses: DailyLosses,
  rates: LossRates,
  { firstDay, lastDay }: { firstDay: number; lastDay: number },
): PricedLosses {
  const sum: PricedLosses = {
    days: 0,
    bridgedDays: 0,
    heat: 0,
    pumping: null,
    money: null,
    unpricedDays: 0,
    unpricedPumpingDays: 0,
  };
  for (let row = firstNotBefore(losses.day, firstDay); row < losses.day.length; row++) {
    const day = losses.day[row]!;
    if (day > lastDay) break;
    sum.days++;
    sum.bridgedDays += losses.isBridged[row]!;
    addHeat(sum, losses.heat[row]!, rateOn(rates.heat, day));
    addPumping(sum, losses.pumping[row]!, rateOn(rates.pumping, day));
  }
  return sum;
}

/** No heat costs nothing at any rate. */
function addHeat(sum: PricedLosses, heat: number, rate: number | null): void {
  sum.heat += heat;
  if (rate !== null) sum.money = (sum.money ?? 0) + heat * rate;
  else if (heat !== 0) sum.unpricedDays++;
}

function addPumping(sum: PricedLosses, pumping: number, rate: number | null): void {
  if (Number.isNaN(pumping)) return;
  sum.pumping = (sum.pumping ?? 0) + pumping;
  if (rate !== null) sum.money = (sum.money ?? 0) + pumping * rate;
  else if (pumping !== 0) sum.unpricedPumpingDays++;
}
