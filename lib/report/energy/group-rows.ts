import type { FleetCosts, UnitCosts } from '@/lib/contract/costs';
import { MISSING } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { carbonText, heatText, moneyText, pumpingText } from './energy-format';
import { sumWithUncertainty } from './loss';

/** Units together: of a site, a service, or of one effect. */
export type GroupRow = {
  key: string;
  name: string;
  units: string;
  money: string;
  heat: string;
  pumping: string;
  carbon: string;
  days: string;
};

const EFFECT_WORDS: Record<NonNullable<UnitCosts['effect']> | 'none', string> = {
  recovery: 'heat recovery',
  heating: 'heating',
  cooling: 'cooling',
  none: 'effect not stated in the datasheet',
};

export function siteRows({ units, sites }: FleetCosts, system: UnitSystem): GroupRow[] {
  return sites.map(({ site, currency }) =>
    groupRow({ name: site, units: units.filter((unit) => unit.site === site), currency }, system),
  );
}

/** By what the heat is for, apart for each currency. */
export function effectRows({ units }: FleetCosts, system: UnitSystem): GroupRow[] {
  return grouped(units, ({ effect }) => EFFECT_WORDS[effect ?? 'none'], system);
}

export function serviceRows({ units }: FleetCosts, system: UnitSystem): GroupRow[] {
  return grouped(units, ({ service }) => (service === '' ? 'service not stated' : service), system);
}

/** The dearest group first, currency by currency. */
function grouped(
  units: readonly UnitCosts[],
  nameOf: (unit: UnitCosts) => string,
  system: UnitSystem,
): GroupRow[] {
  const groups = new Map<string, { name: string; currency: string; units: UnitCosts[]; money: number }>();
  for (const unit of units) {
    const name = nameOf(unit);
    const key = JSON.stringify([unit.currency, name]);
    const group = groups.get(key) ?? { name, currency: unit.currency, units: [], money: 0 };
    group.units.push(unit);
    group.money += unit.money ?? 0;
    groups.set(key, group);
  }
  return [...groups.values()]
    .sort((a, b) => a.currency.localeCompare(b.currency, 'en') || b.money - a.money)
    .map((group) => groupRow(group, system));
}

function groupRow(
  { name, units, currency }: { name: string; units: readonly UnitCosts[]; currency: string },
  system: UnitSystem,
): GroupRow {
  const loss = sumWithUncertainty(units);
  const counted = units.filter(({ days }) => days > 0).length;
  return {
    key: `${name} ${currency}`,
    name,
    units: counted === units.length ? String(counted) : `${counted} of ${units.length}`,
    money: loss.money === null ? MISSING : moneyText(loss.money, loss.moneyUncertainty, currency),
    heat: heatText(loss, system),
    pumping: pumpingText(loss.pumping, system),
    carbon: carbonText(loss.carbon),
    days: String(loss.days),
  };
}
