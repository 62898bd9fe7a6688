import { fleetToday } from '@/lib/report/cleanings/fleet-today';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf } from '@/lib/report/format/words';
import type { FleetRecords } from '@/lib/report/records';
import { addMonths } from '@/lib/report/time-axis';
import { isoDay } from '@/lib/time/calendar-day';
import { type EnergyAddress, energyHref, monthHref } from './energy-address';
import { daysOf, type EnergyPeriod, monthPeriod } from './energy-period';
import { costsIn } from './fleet-costs';
import { effectRows, type GroupRow, siteRows } from './group-rows';
import { type Headline, headline } from './headline';
import { longName, type MonthBars, monthsView } from './months-view';
import { ofSite } from './of-site';
import { type PlannedView, plannedView } from './planned-view';
import { returnedCleanings } from './returned';
import { type ReturnedView, returnedView } from './returned-view';
import { costTotals } from './totals';
import { type UnitList, uncountedRows, unitLists } from './unit-rows';

/** Units, cleanings and planned cleanings named on the sheet; more are counted. */
const MOST_UNITS = 10;
export const MOST_CLEANINGS = 8;
/** Months drawn on the sheet, and months back whose cleanings it tells of: a cleaning needs time to pay. */
const MONTHS_DRAWN = 12;
const CLEANING_MONTHS = 3;

/** The sheet of one month: everything a manager takes to a meeting. */
export type MonthView = {
  month: string;
  title: string;
  site: string | null;
  asOf: string;
  isRunning: boolean;
  hasResults: boolean;
  headline: Headline;
  groups: GroupRow[];
  lists: (UnitList & { others: number })[];
  /** How many units are in no sum of money, in words; empty where all are. */
  uncounted: string;
  bars: MonthBars[];
  cleaningsSpan: string;
  returned: ReturnedView;
  planned: PlannedView;
  earlierHref: string;
  laterHref: string | null;
  backHref: string;
};

/**
 * The sheet of a month, `YYYY-MM`; of the last whole one where none is named or it has not begun.
 *
 * @throws AppError 'not-found' for a site that is not there
 */
export function monthView(
  records: FleetRecords,
  { month, address }: { month: string | null; address: EnergyAddress },
  system: UnitSystem,
): MonthView {
  const today = fleetToday(records);
  const own = ofSite(records, address.site);
  const period = shownMonth(month, today);
  const costs = costsIn(own, { period, lastMonthDay: Math.min(period.to, today) });
  const frame = { system, periodDays: daysOf(period), units: address.units };
  const name = monthOf(period.from);
  const cleaned = { from: addMonths(period.from, 1 - CLEANING_MONTHS), to: period.to };
  return {
    month: name,
    title: `What fouling cost in ${longName(name)}`,
    site: address.site,
    asOf: formatDay(today),
    isRunning: period.to >= today,
    hasResults: costs.asOf !== null,
    headline: headline(costs, costTotals(costs), system),
    groups: [...(own.sites.length > 1 ? siteRows(costs, system) : []), ...effectRows(costs, system)],
    lists: unitLists(costs, frame).map((list) => ({
      ...list,
      rows: list.rows.slice(0, MOST_UNITS),
      others: Math.max(0, list.rows.length - MOST_UNITS),
    })),
    uncounted: uncountedInWords(uncountedRows(costs, frame).map(({ tag }) => tag)),
    bars: monthsView(
      {
        ...costs,
        months: costs.months.filter((each) => each.month > monthOf(addMonths(period.from, -MONTHS_DRAWN))),
      },
      system,
    ).series,
    cleaningsSpan: `${longName(monthOf(cleaned.from))} to ${longName(name)}`,
    returned: returnedView({ cleanings: returnedCleanings(own, cleaned) }, frame),
    planned: plannedView(costs, own),
    earlierHref: monthHref(monthOf(period.from - 1), address),
    laterHref: period.to >= today ? null : monthHref(monthOf(period.to + 1), address),
    backHref: energyHref(address, {
      period: 'custom',
      fromDay: period.from,
      toDay: Math.min(period.to, today),
    }),
  };
}

function shownMonth(month: string | null, today: number): EnergyPeriod {
  const stated = monthPeriod(month);
  if (stated !== null && stated.from <= today) return stated;
  return monthPeriod(monthOf(addMonths(today, -1)))!;
}

function monthOf(day: number): string {
  return isoDay(day).slice(0, 7);
}

const MOST_NAMED = 8;

function uncountedInWords(tags: readonly string[]): string {
  if (tags.length === 0) return '';
  const rest = tags.length - MOST_NAMED;
  const named = tags.slice(0, MOST_NAMED).join(', ');
  return `Without a loss, a figure or a price: ${named}${rest > 0 ? ` and ${countOf(rest, 'other unit')}` : ''}.`;
}
