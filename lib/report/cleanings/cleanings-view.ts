import { CLEANING_PERIODS } from '@/lib/contract/fleet-cleanings';
import { displayUnit } from '@/lib/report/format/display-unit';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { FleetRecords } from '@/lib/report/records';
import { fleetStaleness } from '@/lib/report/staleness';
import { isoDay } from '@/lib/time/calendar-day';
import { type CleaningRow, cleaningRow } from './cleaning-row';
import { cleaningTotals } from './cleaning-totals';
import { type CleaningsAddress, cleaningsHref } from './cleanings-address';
import { type CleaningsPeriod, cleaningsPeriod, PERIOD_WORDS, periodInWords } from './cleanings-period';
import { type DoneCleaning, doneCleanings } from './done-cleaning';
import { fleetToday } from './fleet-today';
import { type MethodsView, methodsView } from './methods-view';
import { type ProbableRow, probableRows } from './probable-row';
import { type TotalsWords, totalsInWords } from './totals-words';

/** Everything the page of cleanings shows. */
export type CleaningsView = {
  today: string;
  units: number;
  staleness: string[];
  /** The period in words, links to others, and its first and last day for the form. */
  period: string;
  periods: { label: string; href: string; isCurrent: boolean }[];
  from: string;
  to: string;
  latest: string;
  kept: Record<string, string>;
  totals: TotalsWords;
  rows: CleaningRow[];
  foulingUnit: string;
  probable: ProbableRow[];
  methods: MethodsView;
  csvHref: string;
};

/** What the cleanings of a period did, and whether they paid. */
export function cleaningsView(
  records: FleetRecords,
  address: CleaningsAddress,
  system: UnitSystem,
): CleaningsView {
  const today = fleetToday(records);
  const period = cleaningsPeriod(address, today);
  const cleanings = doneCleanings(records, period);
  const { units } = address;
  return {
    today: formatDay(today),
    units: records.units.length,
    staleness: fleetStaleness(records),
    ...periodControl(address, { period, today, cleanings }),
    totals: totalsInWords(cleaningTotals(cleanings), { period, system }),
    rows: cleanings.map((cleaning) => cleaningRow(cleaning, { system, units })),
    foulingUnit: displayUnit('foulingResistance', system).label,
    methods: methodsView(doneCleanings(records, { from: null, to: today })),
    probable: probableRows(records.units, { system, units }),
  };
}

type PeriodControl = Pick<
  CleaningsView,
  'period' | 'periods' | 'from' | 'to' | 'latest' | 'kept' | 'csvHref'
>;

function periodControl(
  address: CleaningsAddress,
  { period, today, cleanings }: { period: CleaningsPeriod; today: number; cleanings: DoneCleaning[] },
): PeriodControl {
  const file = cleaningsHref(address, { units: null, site: null }, '/api/v1/cleanings');
  return {
    period: periodInWords(period),
    periods: CLEANING_PERIODS.map((name) => ({
      label: PERIOD_WORDS[name],
      href: cleaningsHref(address, { period: name }),
      isCurrent: name === address.period,
    })),
    from: isoDay(period.from ?? cleanings.at(-1)?.day ?? today),
    to: isoDay(period.to),
    latest: isoDay(today),
    kept: {
      ...(address.units === null ? {} : { units: address.units }),
      ...(address.site ? { site: address.site } : {}),
    },
    csvHref: `${file}${file.includes('?') ? '&' : '?'}format=csv`,
  };
}
