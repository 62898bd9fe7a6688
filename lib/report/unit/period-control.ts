import { formatDay } from '@/lib/report/format/time';
import { isoDay } from '@/lib/time/calendar-day';
import { type PeriodName, type UnitAddress, unitHref } from './unit-address';
import { neighbourPeriod, type Period } from './unit-period';

/** The period's control: links, so that every choice is an address. */
export type PeriodControl = {
  choices: { name: PeriodName; label: string; href: string; isCurrent: boolean }[];
  previous: string;
  /** Null when the period already reaches today. */
  next: string | null;
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

export function periodControl(address: UnitAddress, period: Period, today: number): PeriodControl {
  const custom = (days: Pick<Period, 'fromDay' | 'toDay'>) =>
    unitHref(address, { ...days, period: 'custom', reading: null });
  const next = neighbourPeriod(period, 1, today);
  return {
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
