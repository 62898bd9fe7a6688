import type { ChartView } from '@/lib/report/format/chart-view';
import { currencySign, formatMoney, formatNumber, MISSING } from '@/lib/report/format/figure';
import { niceScale } from '@/lib/report/format/nice-scale';
import { formatDay, formatSpan } from '@/lib/report/format/time';
import { type TimeAxis, timeAxis } from '@/lib/report/format/time-axis';
import type { CleaningDay } from '@/lib/report/prices/cleaning-day';
import { DAY_MS } from '@/lib/time/calendar-day';
import { startOfLocalDay } from '@/lib/time/local-day';
import type { CostRecords } from './cost-records';

/** The axis reaches so far beyond what must be seen, and at least so many days [-, days] (own choice). */
const ROOM_BEYOND = 1.3;
const LEAST_DAYS = 120;
/** Mean costs above so many times the least are cut off: a cycle that has just begun costs without end [-] (own choice). */
const HIGHEST_SHOWN = 2.5;
/** Where the clean-by bar lies, as a share of the height of the plot [-]. */
const BAR_HEIGHT = 0.2;

/** The curve of mean cost by cleaning day with its words, and what it is made of. */
export type CostCurve = {
  statement: string;
  flat: string | null;
  chart: ChartView;
  parts: { label: string; value: string; whence: string }[];
};

export function costCurve(cost: CostRecords, day: CleaningDay): CostCurve {
  return {
    statement: statementOf(cost, day),
    flat: flatInWords(cost, day),
    chart: chartOf(cost, day),
    parts: partsOf(cost, day),
  };
}

function statementOf({ today, currency, trend }: CostRecords, { bestDay, curve }: CleaningDay): string {
  const last = curve.points.at(-1);
  if (bestDay === null || curve.best === null) {
    const until = last === undefined ? '' : ` on ${formatDay(today + last.day)}`;
    return `A day of the cycle still gets cheaper at the end of what is projected${until}: money alone gives no reason to clean before the limit.`;
  }
  if (bestDay <= today)
    return `Cleaning would have cost least around ${formatDay(bestDay)}: since then every day has cost more than the cycle does on average.`;
  const limitDay = trend.governing === null ? null : trend.limits[trend.governing]!.p50Day;
  const isLimitFirst = limitDay !== null && limitDay < bestDay;
  const limit = isLimitFirst ? ` The limit comes first, around ${formatDay(limitDay)} as projected.` : '';
  return `Cleaning costs least around ${formatDay(bestDay)}: ${formatMoney(curve.best.meanCost, currency)} a day over the whole cycle, projected.${limit}`;
}

function flatInWords({ today }: CostRecords, { curve, bestDay }: CleaningDay): string | null {
  if (curve.flat === null || bestDay === null) return null;
  const { from, to } = curve.flat;
  if (bestDay <= today && to !== null && Math.floor(to) > 0)
    return `Of the days ahead the first costs least; any day to ${formatDay(today + Math.floor(to))} costs at most 5 % more.`;
  const first = Math.ceil(from) <= 0 ? 'today' : formatDay(today + Math.ceil(from));
  if (to === null)
    return `Cleaning any day from ${first} on, as far as is projected, costs within 5 % of the least.`;
  if (Math.floor(to) <= 0) return 'From tomorrow on a cleaning costs over 5 % more than the least.';
  return `Cleaning any day from ${first} to ${formatDay(today + Math.floor(to))} costs within 5 % of the least.`;
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

function chartOf(cost: CostRecords, day: CleaningDay): ChartView {
  const { today, currency, records } = cost;
  const { curve, bestDay } = day;
  const { timeZone } = records.record.site;
  const at = (localDay: number) => startOfLocalDay(localDay, timeZone);
  const end = lastShown(cost, day);
  const points = curve.points.filter((point) => point.day <= end);
  const axis = axisOf(at(today), at(today + end), timeZone);
  const lowest = Math.min(...points.map(({ meanCost }) => meanCost));
  const scale = niceScale(
    0,
    Math.min(Math.max(...points.map(({ meanCost }) => meanCost)), HIGHEST_SHOWN * lowest),
  );
  const unit = `${currencySign(currency)}/day`;
  const decimals = lowest < 10 ? 2 : 0;
  return {
    name: 'curve',
    title: 'Mean cost of the whole cycle, by the day it is cleaned on',
    unit,
    summary: `${statementOf(cost, day)} ${flatInWords(cost, day) ?? ''}`.trim(),
    axis,
    scale,
    time: points.map((point) => at(today + point.day)),
    columns: [
      {
        role: 'line',
        label: 'mean cost',
        unit,
        decimals,
        values: points.map(({ meanCost }) => meanCost),
        style: 'main',
      },
      {
        role: 'table',
        label: 'lost by then in this cycle',
        unit: currencySign(currency),
        decimals: 0,
        values: points.map(({ lossUntilThen }) => lossUntilThen),
      },
    ],
    levels: [],
    marks:
      bestDay === null || bestDay <= today || curve.best === null
        ? []
        : [
            {
              at: at(bestDay),
              symbol: '◇',
              label: `least: ${formatNumber(curve.best.meanCost, decimals)} ${unit}, ${formatDay(bestDay, { year: false })}`,
            },
          ],
    spans: flatSpan(curve, { axis, at, today }),
    missing: [],
    isNamingEvents: true,
    cleanBy: cleanByOf(cost, { at, level: scale.min + BAR_HEIGHT * (scale.max - scale.min) }),
    isDaily: true,
    note: noteOf(cost),
  };
}

/** So that best day, flat range and clean-by bar are all seen; no further than is projected [days from today]. */
function lastShown({ trend, today }: CostRecords, { curve }: CleaningDay): number {
  const governing = trend.governing === null ? null : trend.limits[trend.governing]!;
  const cleanBy = governing?.p90Day ?? governing?.p50Day ?? null;
  const wished = [curve.best?.day ?? 0, curve.flat?.to ?? 0, cleanBy === null ? 0 : cleanBy - today];
  return Math.min(
    curve.points.at(-1)?.day ?? LEAST_DAYS,
    Math.max(LEAST_DAYS, ...wished.map((days) => days * ROOM_BEYOND)),
  );
}

function axisOf(from: number, to: number, timeZone: string): TimeAxis {
  // All of it lies ahead: no room is kept at its right for the names of lines that end today.
  return { ...timeAxis({ from, to, now: from - 1, lastDayToShow: null, timeZone }), futureShare: 0.5 };
}

type Placed = { axis: TimeAxis; at: (day: number) => number; today: number };

function flatSpan({ flat }: CleaningDay['curve'], { axis, at, today }: Placed): ChartView['spans'] {
  if (flat === null) return [];
  const from = at(today + Math.ceil(flat.from));
  const to = flat.to === null ? axis.end : Math.min(at(today + Math.floor(flat.to)), axis.end);
  return to > from ? [{ from, to, label: 'within 5 % of the least' }] : [];
}

function cleanByOf(
  { trend, today }: CostRecords,
  { at, level }: { at: (day: number) => number; level: number },
): ChartView['cleanBy'] {
  const governing = trend.governing === null ? null : trend.limits[trend.governing]!;
  if (governing === null || governing.p50Day === null || governing.crossedDay !== null) return null;
  const { p10Day, p50Day, p90Day } = governing;
  const from = p10Day ?? today;
  const to = p90Day === null ? MISSING : formatDay(p90Day, { year: false });
  return {
    p10: at(from),
    p50: at(p50Day),
    p90: p90Day === null ? null : at(p90Day),
    label: `limit: ${formatDay(from, { year: false })} – ${to}`,
    level,
  };
}

function noteOf({ trend }: CostRecords): string {
  const began = trend.cycles.at(-1)?.began;
  const unknown =
    began === 'record' ? ' When this cycle began is not known: it is counted from the first reading.' : '';
  return `(Cleaning + money lost while out of service + losses of the cycle) over its days. Losses so far are as measured, those to come as expected. The bar shows when the limit is projected to be reached: P10 to P90, with a tick at P50.${unknown}`;
}
