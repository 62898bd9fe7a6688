import type { DailyColumns } from '../series/daily-columns';
import { medianInPlace } from '../stats/median-in-place';
import { median } from '../stats/quantile';
import { NORMAL_CONSISTENCY } from '../stats/spread';
import { bestChange, type ChangePoint } from './change-point';

/** Slow or sudden change of the heat balance (Qh − Qc)/mean that lasts: some sensor is suspect, which one it cannot tell. */
export type BalanceDrift = {
  /** Whether it grows day by day, or came at once and stayed. */
  kind: 'drift' | 'shift';
  /** Local day since which the balance is no longer what it was. */
  sinceDay: number;
  /** Change from then to today with its standard uncertainty [-]; > 0: the hot side gives more than it did beside the cold. */
  change: number;
  changeUncertainty: number;
  /** Growth per 30 days with its standard uncertainty [-]; null for a shift. */
  perMonth: number | null;
  perMonthUncertainty: number | null;
};

/** Days looked back over: a season, so that what was before is known [days]. */
const DRIFT_DAYS = 180;
const DAYS_PER_MONTH = 30;
/** Fewest days with a balance to judge from [-]. */
const FEWEST_DAYS = 60;
/**
 * A change is claimed at this multiple of its standard uncertainty [-]: the best of some 300 shapes reaches it by chance in
 * fewer than 1 of 100 steady records (by simulation, autocorrelation up to 0.7 from day to day).
 */
const CRITICAL_MULTIPLE = 5;
/** A smaller change of the balance means nothing for a unit's duty [-] (own choice). */
const LEAST_CHANGE = 0.005;
/** Days at the end whose median must still show this share of the change [days, -]. */
const LAST_DAYS = 14;
const STILL_THERE = 0.5;
/** Single days are taken no further than this from the median of the week around them [scaled median absolute deviations]. */
const TAME = 3;
const HALF_WEEK = 3;

/**
 * Whether a unit's heat balance has been drifting, or has shifted, since when and by how much: the broken line or step that
 * fits the daily balances of the last 180 days best, where chance seldom gives as much, noise that lasts for days allowed
 * for. One balance cannot tell which sensor it is.
 *
 * @param daily         daily figures up to today
 * @param todayLocalDay today [days since 1970-01-01]
 * @returns the change, if it is there today; null where there is none, or fewer than 60 of the days have a balance
 * @range  any
 * @source `bestChange`; its critical multiple by simulation (own)
 * @check  tests/core/pipeline/balance-drift.test.ts
 */
export function balanceDrift(daily: DailyColumns, todayLocalDay: number): BalanceDrift | null {
  const { days, balances } = recentBalances(daily, todayLocalDay);
  if (days.length < FEWEST_DAYS) return null;
  const found = bestChange(days, tamed(balances));
  const { kind, place, change, uncertainty } = found;
  const isClear = Math.abs(change) >= Math.max(LEAST_CHANGE, CRITICAL_MULTIPLE * uncertainty);
  if (!isClear || !isStillThere(balances, found)) return null;
  const months = (days.at(-1)! - days[place]!) / DAYS_PER_MONTH;
  return {
    kind,
    sinceDay: days[place]!,
    change,
    changeUncertainty: uncertainty,
    perMonth: kind === 'drift' ? change / months : null,
    perMonthUncertainty: kind === 'drift' ? uncertainty / months : null,
  };
}

function recentBalances({ day, balance }: DailyColumns, today: number) {
  const rows: number[] = [];
  for (let row = day.length - 1; row >= 0 && day[row]! > today - DRIFT_DAYS; row--) {
    if (day[row]! <= today && Number.isFinite(balance[row]!)) rows.push(row);
  }
  rows.reverse();
  return {
    days: Float64Array.from(rows, (row) => day[row]!),
    balances: Float64Array.from(rows, (row) => balance[row]!),
  };
}

/** Draws in days that lie far from the median of the week around them: one bad day is no change. */
function tamed(values: Float64Array): Float64Array {
  const centres = new Float64Array(values.length);
  const week = new Float64Array(2 * HALF_WEEK + 1);
  for (let i = 0; i < values.length; i++) {
    let count = 0;
    const last = Math.min(values.length - 1, i + HALF_WEEK);
    for (let j = Math.max(0, i - HALF_WEEK); j <= last; j++) week[count++] = values[j]!;
    centres[i] = medianInPlace(week, count);
  }
  const most = TAME * NORMAL_CONSISTENCY * median(values.map((value, i) => Math.abs(value - centres[i]!)));
  return values.map((value, i) => Math.min(centres[i]! + most, Math.max(centres[i]! - most, value)));
}

/** A sensor that was put right again is suspect no longer. */
function isStillThere(balances: Float64Array, { place, change }: ChangePoint): boolean {
  const before = median(balances.slice(0, Math.max(place, HALF_WEEK)));
  return (median(balances.slice(-LAST_DAYS)) - before) / change >= STILL_THERE;
}
