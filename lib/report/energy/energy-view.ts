import { COST_PERIODS, type FleetCosts } from '@/lib/contract/costs';
import { cleaningsHref } from '@/lib/report/cleanings/cleanings-address';
import { fleetToday } from '@/lib/report/cleanings/fleet-today';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { FleetRecords } from '@/lib/report/records';
import { fleetStaleness } from '@/lib/report/staleness';
import { dayNumber, isoDay } from '@/lib/time/calendar-day';
import { type EnergyAddress, energyHref, monthHref } from './energy-address';
import { daysOf, type EnergyPeriod, PERIOD_WORDS, periodInWords } from './energy-period';
import { fleetCosts } from './fleet-costs';
import { effectRows, type GroupRow, serviceRows, siteRows } from './group-rows';
import { type Headline, headline } from './headline';
import { type MonthsView, monthsView } from './months-view';
import { ofSite } from './of-site';
import { type PlannedView, plannedView } from './planned-view';
import { type ReturnedView, returnedView } from './returned-view';
import { costTotals } from './totals';
import { type UncountedRow, type UnitList, uncountedRows, unitLists } from './unit-rows';

/** Everything the page of energy and money shows. */
export type EnergyView = {
  today: string;
  units: number;
  hasResults: boolean;
  site: string | null;
  sites: string[];
  staleness: string[];
  control: PeriodControl;
  headline: Headline;
  bySite: GroupRow[];
  byEffect: GroupRow[];
  byService: GroupRow[];
  lists: UnitList[];
  uncounted: UncountedRow[];
  months: MonthsView;
  returned: ReturnedView;
  cleaningsHref: string;
  planned: PlannedView;
};

/** The period in words, links to others, and its first and last day for the form. */
type PeriodControl = {
  period: string;
  periods: { label: string; href: string; isCurrent: boolean }[];
  from: string;
  to: string;
  latest: string;
  kept: Record<string, string>;
  csvHref: string;
  monthHref: string;
};

/**
 * What dirty exchangers cost in a period, where, and what was and will be won back.
 *
 * @throws AppError 'not-found' for a site that is not there
 */
export function energyView(records: FleetRecords, address: EnergyAddress, system: UnitSystem): EnergyView {
  const today = fleetToday(records);
  const own = ofSite(records, address.site);
  const costs = fleetCosts(records, address);
  const period = { from: dayNumber(costs.from), to: dayNumber(costs.to) };
  const frame = { system, periodDays: daysOf(period), units: address.units };
  return {
    today: formatDay(today),
    units: own.units.length,
    hasResults: costs.asOf !== null,
    site: address.site,
    sites: records.sites.map(({ name }) => name),
    staleness: fleetStaleness(own),
    control: periodControl(address, { period, today }),
    headline: headline(costs, costTotals(costs), system),
    ...groups(costs, system),
    lists: unitLists(costs, frame),
    uncounted: uncountedRows(costs, frame),
    months: monthsView(costs, system),
    returned: returnedView(costs, frame),
    cleaningsHref: cleaningsHref({
      period: 'custom',
      fromDay: period.from,
      toDay: period.to,
      units: address.units,
    }),
    planned: plannedView(costs, own),
  };
}

function groups(
  costs: FleetCosts,
  system: UnitSystem,
): Pick<EnergyView, 'bySite' | 'byEffect' | 'byService'> {
  return {
    bySite: siteRows(costs, system),
    byEffect: effectRows(costs, system),
    byService: serviceRows(costs, system),
  };
}

function periodControl(
  address: EnergyAddress,
  { period, today }: { period: EnergyPeriod; today: number },
): PeriodControl {
  const file = energyHref(address, { units: null }, '/api/v1/costs');
  return {
    period: periodInWords(period),
    periods: COST_PERIODS.map((name) => ({
      label: PERIOD_WORDS[name],
      href: energyHref(address, { period: name }),
      isCurrent: name === address.period,
    })),
    from: isoDay(period.from),
    to: isoDay(period.to),
    latest: isoDay(today),
    kept: address.units === null ? {} : { units: address.units },
    csvHref: `${file}${file.includes('?') ? '&' : '?'}format=csv`,
    monthHref: monthHref(isoDay(Math.min(period.to, today)).slice(0, 7), address),
  };
}
