import { type DailyLosses, dailyLosses } from '@/lib/core/cost/daily-losses';
import { type PricedLosses, pricedLosses } from '@/lib/core/cost/priced-losses';
import { projectedLosses } from '@/lib/core/cost/projected-losses';
import { outletDuty } from '@/lib/core/exchange/rating';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import type { Outlook } from '@/lib/core/pipeline/outlook';
import { recentConditions } from '@/lib/core/pipeline/recent-conditions';
import { carbonText } from '@/lib/report/energy/energy-format';
import { formatFigureText, formatMoney, MISSING } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { isoDay } from '@/lib/time/calendar-day';
import type { CostRecords } from './cost-records';

/** Days ahead that are shown where the reader asks for none, and neither limit nor economy names a day. */
const USUAL_DAYS_AHEAD = 90;
/** Digits of projected money and carbon [-]: P10 and P90 say how little the last one means. */
const PROJECTED_DIGITS = 3;

type ProjectedRow = {
  key: string;
  label: string;
  heat: string;
  pumping: string;
  money: string;
  carbon: string;
};

/** Losses up to a chosen day if the unit is left as it is; `rows` is empty where nothing can be projected. */
export type CostProjection = {
  /** The chosen day as the address writes it, and the days that can be chosen. */
  until: string;
  earliest: string;
  latest: string;
  rows: ProjectedRow[];
  /** What was asked for and what the figures are; why there are none. */
  note: string;
};

export function costProjection(cost: CostRecords, wanted: number | null, system: UnitSystem): CostProjection {
  const { trend, today, best } = cost;
  const { outlook } = trend;
  const lastDay = today + Math.floor(outlook?.ageDays.at(-1) ?? trend.horizonDays);
  const usual = [typeof best === 'string' ? null : best.bestDay, p50Of(cost), today + USUAL_DAYS_AHEAD];
  const day = wanted ?? usual.find((each) => each !== null && each > today)!;
  const until = Math.min(Math.max(day, today + 1), lastDay);
  const days = { until: isoDay(until), earliest: isoDay(today + 1), latest: isoDay(lastDay) };
  if (outlook === null) {
    const note =
      'Nothing can be projected yet: that takes recent readings and a growth of the fouling that can be told from its scatter.';
    return { ...days, rows: [], note };
  }
  return {
    ...days,
    rows: projectedRows(cost, outlook, { until, system }),
    note: noteOf(until === day ? null : until, today),
  };
}

function noteOf(movedTo: number | null, today: number): string {
  const moved = movedTo === null ? '' : `No further than ${formatDay(movedTo)} can be shown. `;
  return `${moved}Projected from ${formatDay(today)}, at inlets, flows and load as of late and at the prices known today: expected losses, not facts. P10 and P90 are what is lost if the fouling follows that edge of its projection all along.`;
}

function p50Of({ trend }: CostRecords): number | null {
  return trend.governing === null ? null : trend.limits[trend.governing]!.p50Day;
}

function projectedRows(
  cost: CostRecords,
  outlook: Outlook,
  { until, system }: { until: number; system: UnitSystem },
): ProjectedRow[] {
  const { today, trend, exchanger, daily } = cost;
  const ahead = { firstDay: today + 1, lastDay: until };
  const between = { today, lastDay: until };
  const price = pricedBy(cost);
  const expected = price(projectedLosses(outlook, between), ahead);
  const row = (key: string, label: string, priced: Priced) => rowOf({ key, label, ...priced }, cost, system);
  const rows = [row('ahead', `From tomorrow to ${formatDay(until)}, expected`, expected)];
  for (const [name, lostDuty] of edges(cost, outlook)) {
    const losses = projectedLosses({ ...outlook, lostDuty }, between);
    rows.push(row(name, `… if the fouling follows its ${name.toUpperCase()}`, price(losses, ahead)));
  }
  const running = trend.cycles.at(-1);
  if (running === undefined) return rows;
  const past = price(dailyLosses({ exchanger, daily, cycles: trend.cycles }), {
    firstDay: running.startDay,
    lastDay: today,
  });
  return [
    ...rows,
    row('cycle', `Whole cycle, ${formatDay(running.startDay)} to ${formatDay(until)}`, sum(past, expected)),
  ];
}

/** Lost duty at the ages of the outlook along the edges of the projected fouling [W]; none where a valve holds the outlet. */
function edges(
  { trend, today, exchanger, daily }: CostRecords,
  { ageDays }: Outlook,
): ['p10' | 'p90', number[]][] {
  const { band } = trend;
  const startDay = trend.cycles.at(-1)?.startDay;
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  const recent = recentConditions(daily, fluids);
  if (band === null || startDay === undefined || recent === null || exchanger.losses.heldOutlet !== null)
    return [];
  const { arrangement, area } = exchanger;
  const dutyAt = (fouling: number) =>
    outletDuty({ arrangement, ...recent, conductance: area / (1 / recent.cleanU + fouling) });
  const clean = dutyAt(0);
  return (['p10', 'p90'] as const).map((name) => [
    name,
    ageDays.map((age) => clean - dutyAt(valueAt(band.ageDays, band[name], today - startDay + age))),
  ]);
}

/** On a straight line between the ages; the last value beyond them. */
function valueAt(ages: Float64Array, values: Float64Array, age: number): number {
  const after = ages.findIndex((each) => each >= age);
  if (after <= 0) return values[after === 0 ? 0 : values.length - 1]!;
  const share = (age - ages[after - 1]!) / (ages[after]! - ages[after - 1]!);
  return values[after - 1]! * (1 - share) + values[after]! * share;
}

type Priced = { money: PricedLosses; carbon: PricedLosses };

function pricedBy({ rates }: CostRecords) {
  return (losses: DailyLosses, between: { firstDay: number; lastDay: number }): Priced => ({
    money: pricedLosses(losses, { heat: rates.heat.money, pumping: rates.pumping.money }, between),
    carbon: pricedLosses(losses, { heat: rates.heat.carbon, pumping: rates.pumping.carbon }, between),
  });
}

function sum(past: Priced, ahead: Priced): Priced {
  const added = (one: PricedLosses, other: PricedLosses): PricedLosses => ({
    ...one,
    heat: one.heat + other.heat,
    pumping:
      one.pumping === null && other.pumping === null ? null : (one.pumping ?? 0) + (other.pumping ?? 0),
    money: one.money === null && other.money === null ? null : (one.money ?? 0) + (other.money ?? 0),
  });
  return { money: added(past.money, ahead.money), carbon: added(past.carbon, ahead.carbon) };
}

function rowOf(
  { key, label, money, carbon }: { key: string; label: string } & Priced,
  { currency }: CostRecords,
  system: UnitSystem,
): ProjectedRow {
  const energy = (value: number) => formatFigureText(value, 'energy', system, { digits: 2 });
  return {
    key,
    label,
    heat: energy(money.heat),
    pumping: money.pumping === null ? MISSING : energy(money.pumping),
    money: formatMoney(
      money.money === null ? null : Number(money.money.toPrecision(PROJECTED_DIGITS)),
      currency,
    ),
    carbon: carbonText(carbon.money === null ? null : Number(carbon.money.toPrecision(PROJECTED_DIGITS))),
  };
}
