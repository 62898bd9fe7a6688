import type { UncertainLoss } from '@/lib/contract/costs';
import { LOSS_DAYS } from '@/lib/core/pipeline/energy-lost';
import { carbonText, heatText, moneyText } from '@/lib/report/energy/energy-format';
import { daysOf, type EnergyPeriod, monthsUpTo } from '@/lib/report/energy/energy-period';
import { unitLosses } from '@/lib/report/energy/unit-losses';
import { formatFigureText, MISSING } from '@/lib/report/format/figure';
import { formatDay, MONTHS } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { firstOfYear } from '@/lib/report/prices/unit-money';
import { isoDay } from '@/lib/time/calendar-day';
import type { CostRecords } from './cost-records';

/** Months shown at most, the running one included. */
const MOST_MONTHS = 24;

/** Losses of one period in words; `days` says how far they can be believed. */
export type CostRow = {
  key: string;
  label: string;
  heat: string;
  pumping: string;
  money: string;
  carbon: string;
  days: DaysBehind;
};

/** Days with a figure or on the line between two, those on the line, days without any, and days without a price. */
type DaysBehind = { counted: string; bridged: string; without: string; unpriced: string };

/** What can be amiss with the days of a period. */
const DOUBTS = ['bridged', 'without', 'unpriced'] as const;
export type CostDoubt = (typeof DOUBTS)[number];

/** The doubts that some row has days of: the others would be columns of noughts. */
export function doubtsIn(rows: readonly CostRow[]): CostDoubt[] {
  return DOUBTS.filter((doubt) => rows.some(({ days }) => days[doubt] !== '0'));
}

export type CostTable = { periods: CostRow[]; months: CostRow[] };

/** What was lost since the last cleaning, in the last 30 days, this year, and month by month, the latest first. */
export function costTable(cost: CostRecords, system: UnitSystem): CostTable {
  const { today, daily, trend, records, supplies } = cost;
  const losses = unitLosses({ ...records, daily }, supplies);
  const firstDay = daily.day[0]!;
  const row = (key: string, label: string, { from, to }: EnergyPeriod) => {
    const period = { from: Math.max(from, firstDay), to: Math.min(to, today) };
    return costRow({ key, label, period, loss: losses.uncertainLossIn(period) }, cost, system);
  };
  const running = trend.cycles.at(-1);
  const months = monthsUpTo(today, MOST_MONTHS)
    .filter(({ to }) => to >= firstDay)
    .map((month) => row(isoDay(month.from).slice(0, 7), monthInWords(month.from), month));
  return {
    periods: [
      ...(running === undefined
        ? []
        : [row('cycle', sinceInWords(running), { from: running.startDay, to: today })]),
      row('30d', `Last ${LOSS_DAYS} days`, { from: today - LOSS_DAYS + 1, to: today }),
      row('year', `This year, since ${formatDay(firstOfYear(today))}`, {
        from: firstOfYear(today),
        to: today,
      }),
    ],
    months: months.reverse(),
  };
}

function sinceInWords({ startDay, began }: CostRecords['trend']['cycles'][number]): string {
  const day = formatDay(startDay);
  if (began === 'record') return `Since the first reading, ${day}`;
  return began === 'cleaning' ? `Since the last cleaning, ${day}` : `Since the probable cleaning, ${day}`;
}

function monthInWords(day: number): string {
  const [year, month] = isoDay(day).split('-');
  return `${MONTHS[Number(month) - 1]} ${year}`;
}

type Lost = { key: string; label: string; period: EnergyPeriod; loss: UncertainLoss };

function costRow({ key, label, period, loss }: Lost, { currency }: CostRecords, system: UnitSystem): CostRow {
  return {
    key,
    label,
    heat: heatText(loss, system),
    pumping:
      loss.pumping === null ? MISSING : formatFigureText(loss.pumping, 'energy', system, { digits: 2 }),
    money: moneyText(loss.money, loss.moneyUncertainty, currency),
    carbon: carbonText(loss.carbon),
    days: {
      counted: `${loss.days}`,
      bridged: `${loss.bridgedDays}`,
      without: `${Math.max(0, daysOf(period) - loss.days)}`,
      unpriced: `${Math.max(loss.unpricedDays, loss.unpricedPumpingDays)}`,
    },
  };
}
