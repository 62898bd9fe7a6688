import type { Unit } from '@/lib/contract/fleet-file';
import { toSi } from '@/lib/contract/ucum';
import type { DatedRate } from '@/lib/core/cost/dated-rate';
import { purchasedEnergy } from '@/lib/core/cost/purchased-energy';
import type { SupplyRecord } from '@/lib/report/records';

/** A price that a datasheet states without a date holds from this local day on: before any record. */
const UNDATED_FROM_DAY = -1_000_000;

/** Money [currency of the site] and carbon [kg of CO2e], ascending by day; empty where nothing is known. */
export type Rates = { money: DatedRate[]; carbon: DatedRate[] };

/** What a joule of lost heat costs and emits, efficiency or COP included, and what a joule of pump input does. */
export type UnitRates = { heat: Rates; pumping: Rates };

/** What a datasheet says of the energy: the supply's name, or a price and a factor without a date. */
type Stated = {
  supply?: string | undefined;
  price?: { amount: number; per: string } | undefined;
  carbon?: { kg: number; per: string } | undefined;
};

/**
 * Rates of a unit: the dated prices of the supply it names; before their first day, and without a supply, what its
 * datasheet states.
 *
 * @param supplies those of the unit's site that are in force
 */
export function unitRates(
  unit: Pick<Unit, 'energy' | 'pumping'>,
  supplies: readonly SupplyRecord[],
): UnitRates {
  const { energy, pumping } = unit;
  return {
    heat: ratesOf(energy, supplies, (perJoule) => purchasedEnergy(perJoule, energy?.efficiency ?? 1)),
    pumping: ratesOf(pumping, supplies, (perJoule) => perJoule),
  };
}

/** Whether anything of what a unit loses can be told in money. */
export function hasPrice({ heat, pumping }: UnitRates): boolean {
  return heat.money.length > 0 || pumping.money.length > 0;
}

function ratesOf(
  stated: Stated | undefined,
  supplies: readonly SupplyRecord[],
  used: (perJoule: number) => number,
): Rates {
  if (stated === undefined) return { money: [], carbon: [] };
  const named = supplies
    .filter(({ supply }) => supply === stated.supply)
    .toSorted((a, b) => a.fromDay - b.fromDay);
  const undated = { fromDay: UNDATED_FROM_DAY, price: stated.price ?? null, carbon: stated.carbon ?? null };
  const rows = [undated, ...named];
  return {
    money: rows.flatMap(({ fromDay, price }) => rateOf(fromDay, price?.amount, price?.per)),
    carbon: rows.flatMap(({ fromDay, carbon }) => rateOf(fromDay, carbon?.kg, carbon?.per)),
  };

  function rateOf(fromDay: number, amount: number | undefined, per: string | undefined): DatedRate[] {
    const joules = per === undefined ? null : toSi(1, per, 'energy');
    return amount === undefined || joules === null ? [] : [{ fromDay, perJoule: used(amount / joules) }];
  }
}
