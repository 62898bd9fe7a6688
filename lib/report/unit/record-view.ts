import type { Hindcast, UnitTrend, Widening } from '@/lib/core/pipeline/unit-trend';
import { median } from '@/lib/core/stats/quantile';
import { formatFigureText, formatNumber, MISSING } from '@/lib/report/format/figure';
import { niceScale } from '@/lib/report/format/nice-scale';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf } from '@/lib/report/format/words';
import { flowDependenceInWords } from './flow-dependence-words';
import { weightsInWords } from './growth-words';

/** A past projection on the common scale of days from the day that came: shares of the picture's width [-]. */
export type HindcastPicture = {
  from: number;
  to: number;
  /** Null where the median was not within the horizon. */
  middle: number | null;
  /** True: P90 was not within the horizon, so that the band has no end. */
  isOpen: boolean;
};

/** A past projection beside what came of it. */
export type HindcastRow = {
  key: string;
  cycle: string;
  made: string;
  level: string;
  projected: string;
  came: string;
  /** Days of the median from the day that came; above 0: projected too late. */
  error: string;
  ofTimeLeft: string;
  outcome: 'held' | 'missed';
  /** Null where no day was projected. */
  picture: HindcastPicture | null;
};

/** How past projections of a unit did, and what the present one makes of it. */
export type RecordView = {
  sentence: string;
  /** Spread of the present projection, what it borrows, and the models behind it. */
  present: string[];
  rows: HindcastRow[];
  /** Ends and middle of the pictures' scale. */
  scale: { least: string; greatest: string };
};

/** Share of the truths that P10 to P90 are to hold [-]. */
const AIM = 0.8;

/** Null before the first analysis. */
export function recordView(trend: UnitTrend | null, system: UnitSystem): RecordView | null {
  if (trend === null || trend.cycles.length === 0) return null;
  const reach = reachOf(trend.record);
  return {
    sentence: recordInWords(trend.record),
    present: [
      wideningInWords(trend.widening),
      borrowedInWords(trend) ?? '',
      flowDependenceInWords(trend, system) ?? '',
      weightsInWords(trend.growth?.models ?? []) ?? '',
    ].filter((line) => line !== ''),
    rows: trend.record.map((hindcast) => rowOf(hindcast, { reach, system })).reverse(),
    scale: { least: `${formatNumber(-reach, 0)} d`, greatest: `+${formatNumber(reach, 0)} d` },
  };
}

/** Furthest of the projected days from the days that came, rounded up [days]. */
function reachOf(record: readonly Hindcast[]): number {
  const distances = record.flatMap(({ p10Day, p50Day, p90Day, reachedDay }) =>
    [p10Day, p50Day, p90Day].flatMap((day) => (day === null ? [] : Math.abs(day - reachedDay))),
  );
  return niceScale(0, Math.max(10, ...distances)).max;
}

function rowOf(hindcast: Hindcast, { reach, system }: { reach: number; system: UnitSystem }): HindcastRow {
  const { cycleStartDay, madeDay, shareOfLife, reachedDay, p50Day, held, isLimit, level } = hindcast;
  const error = p50Day === null ? null : p50Day - reachedDay;
  const days = (day: number | null) => (day === null ? 'later' : formatDay(day, { year: false }));
  return {
    key: `${cycleStartDay} ${shareOfLife}`,
    cycle: formatDay(cycleStartDay),
    made: `${formatDay(madeDay, { year: false })}, at ${formatNumber(shareOfLife * 100, 0)} %`,
    level: isLimit ? 'the limit' : formatFigureText(level, 'foulingResistance', system, { digits: 2 }),
    projected: `${days(hindcast.p10Day)} – ${days(p50Day)} – ${days(hindcast.p90Day)}`,
    came: formatDay(Math.round(reachedDay)),
    error: error === null ? MISSING : signed(error),
    ofTimeLeft: error === null ? MISSING : `${formatNumber(shareOfTimeLeft(hindcast, error) * 100, 0)} %`,
    outcome: held ? 'held' : 'missed',
    picture: pictureOf(hindcast, reach),
  };
}

function signed(days: number): string {
  const whole = Math.round(days);
  return `${whole > 0 ? '+' : ''}${formatNumber(whole, 0)}`;
}

function shareOfTimeLeft({ reachedDay, madeDay }: Hindcast, error: number): number {
  return Math.abs(error) / Math.max(1, reachedDay - madeDay);
}

function pictureOf({ p10Day, p50Day, p90Day, reachedDay }: Hindcast, reach: number): HindcastPicture | null {
  if (p10Day === null) return null;
  const at = (day: number) => Math.min(1, Math.max(0, 0.5 + (day - reachedDay) / (2 * reach)));
  return {
    from: at(p10Day),
    to: p90Day === null ? 1 : at(p90Day),
    middle: p50Day === null ? null : at(p50Day),
    isOpen: p90Day === null,
  };
}

/** "5 of 6 past projections of this unit held the day between P10 and P90 …", or that there are none. */
export function recordInWords(record: readonly Hindcast[]): string {
  if (record.length === 0)
    return 'No past cycle of this unit tells yet how its projections do: a cycle must have fouled clearly and ended.';
  const held = record.filter((hindcast) => hindcast.held).length;
  const dated = record.filter(({ p50Day }) => p50Day !== null);
  const count = `${held} of ${countOf(record.length, 'past projection')} of this unit held the day between P10 and P90 (${formatNumber((held / record.length) * 100, 0)} %; ${formatNumber(AIM * 100, 0)} % is the aim)`;
  if (dated.length === 0) return `${count}; none of them named a median day.`;
  const errors = dated.map(({ p50Day, reachedDay }) => Math.abs(p50Day! - reachedDay));
  const shares = dated.map((hindcast, i) => shareOfTimeLeft(hindcast, errors[i]!));
  const days = Math.round(median(errors));
  return `${count}; P50 was off by ${countOf(days, 'day')} in the median, ${formatNumber(median(shares) * 100, 0)} % of the time then left.`;
}

/** The record in a line beside the projected day; null where no day is projected. */
export function surenessInWords(trend: UnitTrend | null): string | null {
  const governing = trend?.governing == null ? null : trend.limits[trend.governing];
  if (trend === null || governing?.withinHorizon == null || governing.crossedDay !== null) return null;
  const { record, widening } = trend;
  const held = record.filter((hindcast) => hindcast.held).length;
  const own =
    record.length === 0
      ? 'No past projection of this unit can be checked yet'
      : `${held} of ${countOf(record.length, 'past projection')} of this unit held between P10 and P90`;
  if (widening.factor <= 1) return `${own}.`;
  const whose = widening.from === 'unit' ? 'them' : `${widening.count} of the fleet`;
  return `${own}; the spread is set ${formatNumber(widening.factor, 1)} times as wide after ${whose}.`;
}

function wideningInWords({ factor, from, count }: Widening): string {
  if (from === 'none')
    return `P10 and P90 stand as the growth models give them: ${countOf(count, 'past projection')} of the fleet ${count === 1 ? 'is' : 'are'} too few to tell whether that is wide enough.`;
  const whose = from === 'unit' ? 'of this unit' : 'of the fleet';
  const record = `${countOf(count, 'past projection')} ${whose}`;
  if (factor <= 1)
    return `P10 and P90 stand as the growth models give them: by ${record} that is wide enough.`;
  return `P10 and P90 are set ${formatNumber(factor, 2)} times as far from the median as the growth models give them, so that four in five of ${record} would have held the day.`;
}

/** "Form and rate of its growth are also taken from 3 earlier cycles."; null where nothing is borrowed. */
function borrowedInWords(trend: UnitTrend): string | null {
  const words = lendersInWords(trend.borrowed);
  return words === null
    ? null
    : `Form and rate of the running cycle’s growth are also taken from ${words}; the longer it runs, the more it tells itself.`;
}

/** "3 earlier cycles", "4 cycles of 2 like units"; null where nothing is borrowed. */
export function lendersInWords({ from, cycles, units }: UnitTrend['borrowed']): string | null {
  if (from === 'none' || cycles === 0) return null;
  if (from === 'own-cycles') return countOf(cycles, 'earlier cycle');
  return `${countOf(cycles, 'cycle')} of ${countOf(units, 'like unit')}`;
}
