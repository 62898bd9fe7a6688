import { Temporal } from 'temporal-polyfill';
import { DAY_MS, isoDay } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import { startOfLocalDay } from '@/lib/time/local-day';
import { formatDay, MONTHS } from './time';

/** One time axis for every figure of a page: from the start of the period past today to `end`. */
export type TimeAxis = {
  from: number;
  end: number;
  /** Today's instant where the axis reaches it; what lies right of it has not happened yet. */
  today: number | null;
  /** Share of the axis that lies in the future. */
  futureShare: number;
  ticks: { at: number; label: string }[];
  timeZone: string;
};

/** The future gets at least this share of the axis, for the labels at the line ends, and at most the other (own choice). */
const LEAST_FUTURE_SHARE = 0.15;
const GREATEST_FUTURE_SHARE = 0.5;
/** Room right of the last day that must be seen, as a share of the future [-] (own choice). */
const FUTURE_MARGIN = 0.12;

type AxisInput = { from: number; to: number; now: number; lastDayToShow: number | null; timeZone: string };

/** The axis of a period; when it reaches today it is extended towards the last day worth showing. */
export function timeAxis({ from, to, now, lastDayToShow, timeZone }: AxisInput): TimeAxis {
  const reachesToday = now >= from && now <= to;
  const past = Math.max(now - from, DAY_MS);
  const wished =
    lastDayToShow === null ? 0 : (startOfLocalDay(lastDayToShow, timeZone) - now) * (1 + FUTURE_MARGIN);
  const least = (past * LEAST_FUTURE_SHARE) / (1 - LEAST_FUTURE_SHARE);
  const greatest = (past * GREATEST_FUTURE_SHARE) / (1 - GREATEST_FUTURE_SHARE);
  const end = reachesToday ? now + Math.min(Math.max(wished, least), greatest) : to;
  return {
    from,
    end,
    today: reachesToday ? now : null,
    futureShare: reachesToday ? (end - now) / (end - from) : 0,
    ticks: axisTicks(from, end, timeZone),
    timeZone,
  };
}

/** At most this many labelled ticks fit side by side on a narrow screen's wider sibling [-] (own choice). */
const MOST_TICKS = 9;
const DAY_STEPS = [1, 2, 7, 14];
const MONTH_STEPS = [1, 2, 3, 6, 12, 24, 60];

function axisTicks(from: number, end: number, timeZone: string): TimeAxis['ticks'] {
  const days = (end - from) / DAY_MS;
  const dayStep = DAY_STEPS.find((step) => days / step <= MOST_TICKS);
  if (dayStep !== undefined) return dayTicks(from, end, { step: dayStep, timeZone });
  const monthStep = MONTH_STEPS.find((step) => days / (step * 30.4) <= MOST_TICKS) ?? 60;
  return monthTicks(from, end, { step: monthStep, timeZone });
}

function dayTicks(from: number, end: number, { step, timeZone }: { step: number; timeZone: string }) {
  const ticks: TimeAxis['ticks'] = [];
  // Weeks begin on Monday: day 0 of 1970 was a Thursday, so Mondays are 4 modulo 7.
  const first = step < 7 ? localDay(from, timeZone) : nextMonday(localDay(from, timeZone));
  for (let day = first; startOfLocalDay(day, timeZone) <= end; day += step) {
    const at = startOfLocalDay(day, timeZone);
    if (at >= from) ticks.push({ at, label: dayLabel(day, ticks.length === 0) });
  }
  return ticks;
}

function nextMonday(day: number): number {
  return day + ((((4 - day) % 7) + 7) % 7);
}

function monthTicks(from: number, end: number, { step, timeZone }: { step: number; timeZone: string }) {
  const ticks: TimeAxis['ticks'] = [];
  let month = Temporal.PlainDate.from(isoDay(localDay(from, timeZone))).with({ day: 1 });
  month = month.subtract({ months: (month.month - 1) % Math.min(step, 12) });
  for (; ; month = month.add({ months: step })) {
    const at = month.toZonedDateTime(timeZone).epochMilliseconds;
    if (at > end) return ticks;
    if (at >= from) ticks.push({ at, label: monthLabel(month, ticks.length === 0) });
  }
}

function monthLabel(date: Temporal.PlainDate, isFirst: boolean): string {
  const name = MONTHS[date.month - 1]!;
  return isFirst || date.month === 1 ? `${name} ${date.year}` : name;
}

function dayLabel(day: number, isFirst: boolean): string {
  return formatDay(day, { year: isFirst });
}
