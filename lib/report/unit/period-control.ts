import { formatDay } from '@/lib/report/format/time';
import { isoDay } from '@/lib/time/calendar-day';
import { type PeriodName, type UnitAddress, unitHref } from './unit-address';
import { neighbourPeriod, type Period } from './unit-period';
import { type DayLimits, type Days, ZOOM_STEP, zoomDays } from './zoom-days';

/** The period's control: links, so that every choice is an address. */
export type PeriodControl = {
  choices: { name: PeriodName; label: string; href: string; isCurrent: boolean }[];
  previous: string;
  /** Null when the period already reaches today. */
  next: string | null;
  /** The address of what is shown, of what it looks like from closer and from further away, and of the page as it opens. */
  href: string;
  zoomIn: string | null;
  zoomOut: string | null;
  reset: string;
  /** Address of any other days, `{from}` and `{to}` standing for the first and the last as `YYYY-MM-DD`. */
  daysHref: string;
  days: Days;
  limits: DayLimits;
  /** First and last day as `YYYY-MM-DD`, for the date fields. */
  from: string;
  to: string;
  latest: string;
  label: string;
  /** What a form must carry along besides the dates. */
  kept: Record<string, string>;
};

const CHOICES: { name: Exclude<PeriodName, 'custom'>; label: string }[] = [
  { name: '30d', label: '30 d' },
  { name: '90d', label: '90 d' },
  { name: 'cycle', label: 'this cycle' },
  { name: '1y', label: '1 y' },
  { name: 'all', label: 'all' },
];

export function periodControl(address: UnitAddress, period: Period, limits: DayLimits): PeriodControl {
  const today = limits.latest;
  const custom = (days: Pick<Period, 'fromDay' | 'toDay'>) =>
    unitHref(address, { ...days, period: 'custom', reading: null });
  const next = neighbourPeriod(period, 1, today);
  const days = { fromDay: period.fromDay, toDay: period.toDay };
  const zoomed = (factor: number) => {
    const wished = zoomDays(days, factor, limits);
    return wished === null ? null : custom(wished);
  };
  return {
    href: unitHref(address),
    zoomIn: zoomed(1 / ZOOM_STEP),
    zoomOut: zoomed(ZOOM_STEP),
    reset: unitHref(address, { period: null, fromDay: null, toDay: null, reading: null }),
    daysHref: custom({ fromDay: 0, toDay: 1 }).replace('1970-01-01', '{from}').replace('1970-01-02', '{to}'),
    days,
    limits,
    choices: CHOICES.map(({ name, label }) => ({
      name,
      label,
      href: unitHref(address, { period: name, fromDay: null, toDay: null, reading: null }),
      isCurrent: period.name === name,
    })),
    previous: custom(neighbourPeriod(period, -1, today)!),
    next: next === null ? null : custom(next),
    from: isoDay(period.fromDay),
    to: isoDay(period.toDay),
    latest: isoDay(today),
    label: `${formatDay(period.fromDay)} – ${formatDay(period.toDay)}`,
    kept: keptFields(address),
  };
}

function keptFields({ isWorkedOut, tables, units }: UnitAddress): Record<string, string> {
  return {
    ...(isWorkedOut ? { how: '1' } : {}),
    ...(tables.length > 0 ? { table: tables.join(',') } : {}),
    ...(units === null ? {} : { units }),
  };
}
