import type { FleetCosts, Loss } from '@/lib/contract/costs';
import { formatFigureText, formatNumber } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf } from '@/lib/report/format/words';
import { listInWords } from '@/lib/report/unit/growth-words';
import { dayNumber } from '@/lib/time/calendar-day';
import { changeInWords } from './change-words';
import { carbonText, heatText, moneyText, pumpingText } from './energy-format';
import { daysOf, type EnergyPeriod } from './energy-period';
import type { CostTotals } from './totals';

/** One of the figures a manager came for, with what it was before. */
type HeadFigure = { label: string; value: string; change: string };

/** The answer in a sentence, its figures, and how much of the period it stands on. */
export type Headline = { main: string; figures: HeadFigure[]; counted: string[] };

export function headline(costs: FleetCosts, totals: CostTotals, system: UnitSystem): Headline {
  const period = { from: dayNumber(costs.from), to: dayNumber(costs.to) };
  return {
    main: mainSentence(totals, { period, system }),
    figures: figuresOf(totals, { period, system }),
    counted: countedInWords(costs, totals, period),
  };
}

type Frame = { period: EnergyPeriod; system: UnitSystem };

/** "Fouling cost 12,000 ± 300 €, 12 % more than in the 30 days before: 240 MWh and 48 t CO2e wasted." */
function mainSentence({ now, byCurrency }: CostTotals, { period, system }: Frame): string {
  if (now.days === 0) return 'No day of this period has figures: what fouling cost in it cannot be told.';
  const money = byCurrency.flatMap((each) => {
    if (each.now.money === null) return [];
    const change = changeOf(each, ({ money: amount }) => amount, period);
    return `${moneyText(each.now.money, each.now.moneyUncertainty, each.currency)}, ${change}`;
  });
  const wasted = [
    formatFigureText(now.energyBought, 'energy', system, { uncertainty: now.energyBoughtUncertainty }),
    ...(now.carbon === null ? [] : [`${carbonText(now.carbon)} CO2e`]),
  ];
  return money.length === 0
    ? `Fouling wasted ${listInWords(wasted)}; no price says what that is worth.`
    : `Fouling cost ${money.join('; and ')}: ${listInWords(wasted)} wasted.`;
}

type Compared = { now: Loss; before: Loss };

function changeOf(
  { now, before }: Compared,
  of: (loss: Loss) => number | null,
  period: EnergyPeriod,
): string {
  return changeInWords(of(now), of(before), {
    days: daysOf(period),
    counted: now.days,
    countedBefore: before.days,
  });
}

/** Heat and pumping apart: one is bought as fuel or cold, the other as electricity. */
function figuresOf(totals: CostTotals, { period, system }: Frame): HeadFigure[] {
  const { now, byCurrency } = totals;
  return [
    {
      label: 'Energy bought in its place',
      value: formatFigureText(now.energyBought, 'energy', system, {
        uncertainty: now.energyBoughtUncertainty,
      }),
      change: changeOf(totals, (loss) => loss.energyBought, period),
    },
    {
      label: 'Heat not transferred',
      value: heatText(now, system),
      change: changeOf(totals, ({ energyLost }) => energyLost, period),
    },
    {
      label: 'Extra pumping',
      value: pumpingText(now.pumping, system),
      change: changeOf(totals, ({ pumping }) => pumping, period),
    },
    ...byCurrency.map((each) => ({
      label: byCurrency.length > 1 ? `Money, ${each.currency}` : 'Money',
      value:
        each.now.money === null
          ? 'no price'
          : moneyText(each.now.money, each.now.moneyUncertainty, each.currency),
      change: changeOf(each, ({ money }) => money, period),
    })),
    {
      label: 'CO2e',
      value: now.carbon === null ? 'no factor' : carbonText(now.carbon),
      change: changeOf(totals, ({ carbon }) => carbon, period),
    },
  ];
}

/** What the figures stand on, and what they leave out. */
function countedInWords({ units }: FleetCosts, { now }: CostTotals, period: EnergyPeriod): string[] {
  const days = daysOf(period);
  const counted = units.filter((unit) => unit.days > 0).length;
  const possible = days * units.length;
  const count = (number: number) => formatNumber(number, 0);
  const lines = [
    `Counted: ${counted} of ${countOf(units.length, 'unit')}, ${count(now.days)} of ${count(possible)} unit-days${
      now.bridgedDays === 0
        ? ''
        : `, ${count(now.bridgedDays)} of them without figures and taken from the days on either side`
    }. What is not counted is not taken as zero.`,
  ];
  if (now.unpricedDays > 0)
    lines.push(`${count(now.unpricedDays)} unit-days have energy but no price and are in no sum of money.`);
  if (now.unpricedPumpingDays > 0)
    lines.push(
      `${count(now.unpricedPumpingDays)} unit-days have extra pumping but no price of electricity: it is in no sum of money.`,
    );
  return lines;
}
