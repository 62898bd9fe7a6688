import type { FleetCosts, Loss, UncertainLoss } from '@/lib/contract/costs';
import { csvText } from '@/lib/report/format/csv';
import { isoDay } from '@/lib/time/calendar-day';
import { monthPeriod } from './energy-period';

const JOULES_PER_MWH = 3.6e9;

const LOSS_HEADS = [
  'energy_lost[MW.h]',
  'energy_lost_uncertainty[MW.h]',
  'extra_pumping[MW.h]',
  'energy_bought[MW.h]',
  'energy_bought_uncertainty[MW.h]',
  'money',
  'money_uncertainty',
  'co2e[kg]',
  'days_counted',
  'days_bridged',
  'days_without_price',
  'pumping_days_without_price',
];

/** What each unit cost in the period, then each site, then each month of each site. */
export function costsCsv({ from, to, units, sites, months }: FleetCosts): string {
  const period = [from, to];
  return csvText([
    ['kind', 'tag', 'service', 'site', 'effect', 'from', 'to', 'currency', ...LOSS_HEADS, 'note'],
    ...units.map((unit) => [
      'unit',
      unit.tag,
      unit.service,
      unit.site,
      unit.effect,
      ...period,
      unit.currency,
      ...lossCells(unit),
      unit.reason,
    ]),
    ...sites.map((site) => [
      'site',
      null,
      null,
      site.site,
      null,
      ...period,
      site.currency,
      ...lossCells(site),
      null,
    ]),
    ...months.map((month) => [
      'month',
      null,
      null,
      month.site,
      null,
      ...daysOfMonth(month.month),
      month.currency,
      ...lossCells(month),
      month.isComplete ? null : 'incomplete',
    ]),
  ]);
}

function daysOfMonth(month: string): string[] {
  const { from, to } = monthPeriod(month)!;
  return [isoDay(from), isoDay(to)];
}

function lossCells(loss: Loss & Partial<UncertainLoss>): (number | null)[] {
  return [
    megawattHours(loss.energyLost),
    megawattHours(loss.energyLostUncertainty ?? null),
    megawattHours(loss.pumping),
    megawattHours(loss.energyBought),
    megawattHours(loss.energyBoughtUncertainty ?? null),
    rounded(loss.money, 2),
    rounded(loss.moneyUncertainty ?? null, 2),
    rounded(loss.carbon, 1),
    loss.days,
    loss.bridgedDays,
    loss.unpricedDays,
    loss.unpricedPumpingDays,
  ];
}

function megawattHours(energy: number | null): number | null {
  return energy === null ? null : Number((energy / JOULES_PER_MWH).toPrecision(6));
}

function rounded(value: number | null, decimals: number): number | null {
  return value === null ? null : Number(value.toFixed(decimals));
}
