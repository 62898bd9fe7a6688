import type { FleetCosts, MonthCosts } from '@/lib/contract/costs';
import { displayUnit, toDisplay } from '@/lib/report/format/display-unit';
import { currencySign, formatMoney, formatNumber, MISSING } from '@/lib/report/format/figure';
import { MONTHS } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { carbonText, energyText } from './energy-format';
import { sumOfLosses } from './loss';

/** One bar: its height from 0 to 1 of the tallest, and what it says. */
type MonthBar = {
  month: string;
  name: string;
  isYearShown: boolean;
  height: number;
  label: string;
  isComplete: boolean;
};

/** Bars of one quantity over the months, all on one scale from zero. */
export type MonthBars = { title: string; unit: string; bars: MonthBar[]; sentence: string };

type MonthRow = {
  month: string;
  name: string;
  energy: string;
  money: string[];
  carbon: string;
  days: string;
  isComplete: boolean;
};

/** What fouling cost month by month: as bars and as a table. */
export type MonthsView = { series: MonthBars[]; rows: MonthRow[]; currencies: string[] };

export function monthsView({ months, sites }: FleetCosts, system: UnitSystem): MonthsView {
  const currencies = [...new Set(sites.map(({ currency }) => currency))];
  const names = [...new Set(months.map(({ month }) => month))];
  const byMonth = names.map((month) => months.filter((each) => each.month === month));
  const energies = byMonth.map((own) => sumOfLosses(own).energyBought);
  const unit = displayUnit('energy', system);
  return {
    currencies,
    series: [
      barsOf(
        { title: 'Energy bought', unit: unit.label, byMonth },
        energies.map((value) => shown(value)),
      ),
      ...currencies
        .filter((currency) => months.some((each) => each.currency === currency && each.money !== null))
        .map((currency) =>
          barsOf({ title: 'Money', unit: currencySign(currency), byMonth }, moneyBy(byMonth, currency)),
        ),
    ],
    rows: byMonth.map((own) => monthRow(own, { currencies, system })),
  };

  function shown(value: number | null): number | null {
    return value === null ? null : toDisplay(value, unit);
  }
}

function moneyBy(byMonth: readonly MonthCosts[][], currency: string): (number | null)[] {
  return byMonth.map((own) => sumOfLosses(own.filter((each) => each.currency === currency)).money);
}

function barsOf(
  { title, unit, byMonth }: { title: string; unit: string; byMonth: readonly MonthCosts[][] },
  values: readonly (number | null)[],
): MonthBars {
  const largest = Math.max(0, ...values.map((value) => value ?? 0));
  const bars = values.map((value, index): MonthBar => {
    const { month } = byMonth[index]![0]!;
    return {
      month,
      name: shortName(month),
      isYearShown: index === 0 || month.endsWith('-01'),
      height: value === null || largest === 0 ? 0 : Math.max(0, value / largest),
      label: value === null ? MISSING : shortNumber(value),
      isComplete: byMonth[index]!.every(({ isComplete }) => isComplete),
    };
  });
  const tallest = bars.find(({ height }) => height === 1);
  const sentence =
    tallest === undefined
      ? `${title}: nothing lost in these months.`
      : `${title} in ${unit} by month, ${bars.length} months; the most in ${longName(tallest.month)}: ${tallest.label}.`;
  return { title, unit, bars, sentence };
}

function monthRow(
  own: readonly MonthCosts[],
  { currencies, system }: { currencies: readonly string[]; system: UnitSystem },
): MonthRow {
  const { month } = own[0]!;
  const loss = sumOfLosses(own);
  const isComplete = own.every((each) => each.isComplete);
  return {
    month,
    name: `${longName(month)}${isComplete ? '' : ', incomplete'}`,
    energy: energyText(loss.energyBought, system),
    money: currencies.map((currency) => {
      const { money } = sumOfLosses(own.filter((each) => each.currency === currency));
      return formatMoney(money, currency);
    }),
    carbon: carbonText(loss.carbon),
    days: String(loss.days),
    isComplete,
  };
}

const THOUSAND = 1000;

/** Above a bar there is room for three digits or so: 12k for 12,345. */
function shortNumber(value: number): string {
  if (Math.abs(value) >= 10 * THOUSAND) return `${formatNumber(value / THOUSAND, 0)}k`;
  if (Math.abs(value) >= THOUSAND) return `${formatNumber(value / THOUSAND, 1)}k`;
  return formatNumber(value, Math.abs(value) < 10 ? 1 : 0);
}

/** "Oct 2026" of `2026-10`. */
export function longName(month: string): string {
  return `${shortName(month)} ${month.slice(0, 4)}`;
}

function shortName(month: string): string {
  return MONTHS[Number(month.slice(5, 7)) - 1]!;
}
