import type { ChartView } from '@/lib/report/format/chart-view';
import { formatMoney, formatNumber } from '@/lib/report/format/figure';
import { formatDay, formatSpan } from '@/lib/report/format/time';
import type { CleaningDay } from '@/lib/report/prices/cleaning-day';
import { DAY_MS } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import { costChart } from './cost-chart';
import type { CostRecords } from './cost-records';

/** The curve of mean cost by cleaning day with its words, and what it is made of. */
export type CostCurve = {
  statement: string;
  flat: string | null;
  /** When it can be cleaned at all, of a unit that is cleaned in outages only; null for any other. */
  outage: string | null;
  chart: ChartView;
  parts: { label: string; value: string; whence: string }[];
};

export function costCurve(cost: CostRecords, day: CleaningDay): CostCurve {
  const statement = statementOf(cost, day);
  const flat = flatInWords(cost, day);
  return {
    statement,
    flat,
    outage: outageInWords(cost),
    chart: costChart(cost, day, { statement, flat }),
    parts: partsOf(cost, day),
  };
}

function statementOf({ today, currency, trend }: CostRecords, { bestDay, curve }: CleaningDay): string {
  const last = curve.ahead.at(-1);
  if (bestDay === null || curve.least === null) {
    const until = last === undefined ? '' : ` on ${formatDay(today + last.day)}`;
    return `A day of the cycle still gets cheaper at the end of what is projected${until}: money alone gives no reason to clean before the limit.`;
  }
  const least = `${formatMoney(curve.least.meanCost, currency)} a day over the whole cycle`;
  const next = curve.leastAhead === null ? 0 : Math.round(curve.leastAhead.day);
  const sinceThen =
    next > 0
      ? `Of the days ahead ${formatDay(today + next)} costs least: ${formatMoney(curve.leastAhead!.meanCost, currency)} a day, projected.`
      : 'Since then every day has cost more than the cycle does on average.';
  if (bestDay <= today)
    return `Cleaning would have cost least around ${formatDay(bestDay)}: ${least}. ${sinceThen}`;
  const limitDay = trend.governing === null ? null : trend.limits[trend.governing]!.p50Day;
  const isLimitFirst = limitDay !== null && limitDay < bestDay;
  const limit = isLimitFirst ? ` The limit comes first, around ${formatDay(limitDay)} as projected.` : '';
  return `Cleaning costs least around ${formatDay(bestDay)}: ${least}, projected.${limit}`;
}

function flatInWords({ today, currency }: CostRecords, { curve }: CleaningDay): string | null {
  if (curve.flat === null) return null;
  const from = Math.ceil(curve.flat.from);
  const to = curve.flat.to === null ? null : Math.floor(curve.flat.to);
  const first = from === 0 ? 'today' : formatDay(today + from);
  if (to === null)
    return `Cleaning any day from ${first} on, as far as is projected, costs within 5 % of the least.`;
  const span = `any day from ${first} to ${to === 0 ? 'today' : formatDay(today + to)}`;
  if (to >= 0) return `Cleaning ${span} costs within 5 % of the least.`;
  const now = curve.ahead[0]!.meanCost / curve.least!.meanCost - 1;
  return `Cleaning ${span} would have cost within 5 % of the least; today it costs ${formatNumber(100 * now, 0)} % more than the least, ${formatMoney(curve.ahead[0]!.meanCost, currency)} a day.`;
}

function outageInWords({ unit, records }: CostRecords): string | null {
  if (unit.cleaning?.inOutageOnly !== true) return null;
  const { outages, now, record } = records;
  const [next] = outages.filter(({ to }) => to > now).toSorted((a, b) => a.from - b.from);
  const only = 'It is cleaned in outages only:';
  if (next === undefined) return `${only} the calendar of ${record.site.name} has none ahead.`;
  const dayOf = (instant: number) => formatDay(localDay(instant, record.site.timeZone));
  // An outage ends where the day after it begins: its last day is that of the instant before.
  return next.from <= now
    ? `${only} ${next.name} is on, to ${dayOf(next.to - 1)}.`
    : `${only} the next is ${next.name}, ${dayOf(next.from)}.`;
}

function partsOf({ currency }: CostRecords, day: CleaningDay): CostCurve['parts'] {
  const { cleaning, downtimeCost, downtimeFrom, outageDays, startDay, lossSoFar } = day;
  return [
    { label: 'Cleaning', value: formatMoney(cleaning.cost, currency), whence: cleaning.words.cost },
    { label: 'Out of service', value: formatSpan(outageDays * DAY_MS), whence: cleaning.words.duration },
    {
      label: 'Money lost meanwhile',
      value: downtimeCost === 0 ? 'none' : formatMoney(downtimeCost, currency),
      whence: DOWNTIME_WORDS[downtimeFrom],
    },
    {
      label: 'Lost so far in this cycle',
      value: formatMoney(lossSoFar, currency),
      whence: `since ${formatDay(startDay)}, at the prices of the days`,
    },
  ];
}

const DOWNTIME_WORDS: Record<CleaningDay['downtimeFrom'], string> = {
  outage: 'cleaned in outages only: the plant stands anyway',
  datasheet: 'as the datasheet states for an hour',
  duty: 'its whole recent duty, bought for that time',
};
