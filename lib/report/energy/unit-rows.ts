import type { FleetCosts, UnitCosts } from '@/lib/contract/costs';
import { formatFigureText } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf } from '@/lib/report/format/words';
import { carbonText, heatText, moneyText, percentText, pumpingText } from './energy-format';
import { type ParetoRow, pareto } from './pareto';

/** One unit of the sorted list. */
export type UnitRow = {
  tag: string;
  href: string;
  service: string;
  site: string;
  /** Place from 0 to 1 of its bar, and what it and all above make of the whole. */
  bar: number;
  share: number;
  cumulative: string;
  money: string;
  heat: string;
  pumping: string;
  carbon: string;
  days: string;
  /** Extra flow of a unit whose outlet is held; empty for others. */
  held: string;
};

/** The units of one currency, the dearest first. */
export type UnitList = { currency: string; makeMost: number; sentence: string; rows: UnitRow[] };

/** A unit that is in no sum of money, and why. */
export type UncountedRow = { tag: string; href: string; why: string };

type Frame = { system: UnitSystem; periodDays: number; units: string | null };

/** Units that cost anything, one list per currency. */
export function unitLists({ units, sites }: FleetCosts, frame: Frame): UnitList[] {
  const currencies = [...new Set(sites.map(({ currency }) => currency))];
  return currencies.flatMap((currency) => {
    const own = units.filter((unit) => unit.currency === currency && unit.money !== null);
    const { rows, makeMost } = pareto(own, { sizeOf: ({ money }) => money, nameOf: ({ tag }) => tag });
    if (rows.length === 0) return [];
    return {
      currency,
      makeMost,
      sentence: `${makeMost} of ${countOf(own.length, 'unit')} ${makeMost === 1 ? 'makes' : 'make'} 80 %.`,
      rows: rows.map((row) => unitRow(row, frame)),
    };
  });
}

function unitRow({ item, ofLargest, cumulative }: ParetoRow<UnitCosts>, frame: Frame): UnitRow {
  const { system, periodDays } = frame;
  return {
    tag: item.tag,
    href: costHref(item.tag, frame.units),
    service: item.service,
    site: item.site,
    bar: ofLargest,
    share: cumulative,
    cumulative: percentText(cumulative),
    money: moneyText(item.money, item.moneyUncertainty, item.currency),
    heat: item.heldOutlet === null ? heatText(item, system) : 'held',
    pumping: pumpingText(item.pumping, system),
    carbon: carbonText(item.carbon),
    days: `${item.days} of ${periodDays}${item.unpricedDays > 0 ? `, ${item.unpricedDays} without a price` : ''}`,
    held: heldInWords(item, system),
  };
}

function heldInWords({ heldOutlet, extraFlow }: UnitCosts, system: UnitSystem): string {
  if (heldOutlet === null) return '';
  const flow =
    extraFlow === null
      ? 'extra flow not known'
      : `${formatFigureText(extraFlow, 'massFlow', system)} extra flow`;
  return `${heldOutlet} outlet held: ${flow}, no heat lost`;
}

/** Units without a loss of money, and why each is not among those above. */
export function uncountedRows({ units }: FleetCosts, { system, units: kept }: Frame): UncountedRow[] {
  return units.flatMap((unit) => {
    const why = whyUncounted(unit, system);
    return why === null ? [] : { tag: unit.tag, href: costHref(unit.tag, kept), why };
  });
}

function whyUncounted(unit: UnitCosts, system: UnitSystem): string | null {
  const { reason, money, heldOutlet } = unit;
  if (reason === 'never-analysed') return 'not analysed yet: import its readings';
  if (reason === 'no-figures') return 'no day with figures in this period';
  if (money !== null && money > 0) return null;
  if (heldOutlet !== null) return `${heldInWords(unit, system)}, ${heldMoneyInWords(unit)}`;
  if (reason === 'no-price')
    return `no price of its energy: ${heatText(unit, system)} of heat not transferred`;
  return 'no loss: as clean as its reference, or cleaner';
}

function heldMoneyInWords({ pumping, unpricedPumpingDays }: UnitCosts): string {
  if (pumping === null) return 'extra pumping not known';
  return unpricedPumpingDays > 0 ? 'no price of its pumping' : 'no extra pumping';
}

/** The unit's page of what it costs, with the formula. */
export function costHref(tag: string, units: string | null): string {
  return `/units/${encodeURIComponent(tag)}/cost${units === null ? '' : `?units=${units}`}`;
}
