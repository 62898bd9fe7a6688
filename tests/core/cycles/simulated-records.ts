import { type DailyColumns, makeDailyColumns } from '@/lib/core/series/daily-columns';
import type { Random } from '@/lib/core/stats/random';
import { FIRST_DAY } from '../../support/daily-record';
import { DAY_MS } from '../../support/forward-readings';
import { GROWING_KINDS, type GrowingKind, LIMIT, simulateCycle } from '../../support/growth-cycles';

type Range = readonly [low: number, high: number];

/** What a simulated record may show besides growth; sizes as shares of the allowance. */
export type Disturbances = {
  noise: Range;
  /** Correlation of the noise over one day [-]. */
  autocorrelation: Range;
  /** Share of days whose noise is three to eight times as large [-]; innovations of Student's t instead of normal ones. */
  outlying: Range;
  hasHeavyTails: boolean;
  /** Amplitude of a sine of a year and of one of `wanderDays`; standard deviation of a drift that remembers `driftDays`. */
  season: Range;
  wander: Range;
  wanderDays: Range;
  drift: Range;
  driftDays: Range;
  /** How much higher two days of each week lie. */
  week: Range;
  /** Bias between two flow regimes that last `regimeDays`. */
  regime: Range;
  regimeDays: Range;
  /** Share of single days without a figure [-]; count of outages and their length [days]. */
  missing: Range;
  outages: Range;
  outageDays: Range;
  /** Count of temporary rises, their height and length [days]. */
  rises: Range;
  riseHeight: Range;
  riseDays: Range;
};

const between = (random: Random, [low, high]: Range) => low + random.uniform() * (high - low);
const whole = (random: Random, [low, high]: Range) => Math.floor(between(random, [low, high + 1]));

/** True course of fouling over a record [m²·K/W], and the days on which the unit is down for a cleaning nobody recorded. */
export type Truth = {
  days: number;
  smooth: (day: number) => number;
  /** First day down and first day running again; equal where it is cleaned overnight. */
  down: { from: number; to: number } | null;
};

/** Growth from clean up to 160 % of the life of a cycle, without any cleaning. */
export function growthAlone(random: Random, of: { kind: GrowingKind; pace: Range }): Truth {
  const cycle = cycleOf(random, of);
  const days = Math.round(cycle.lifeDays * between(random, [0.5, 1.6]));
  return { days, smooth: cycle.smooth, down: null };
}

/** Two cycles, and between them a cleaning that takes away `share` of the allowance while the unit is down. */
export function growthWithCleaning(
  random: Random,
  of: { kind: GrowingKind; pace: Range; share: number; downDays: Range; daysAfter: Range },
): Truth {
  const first = cycleOf(random, of);
  const second = cycleOf(random, { ...of, kind: GROWING_KINDS[whole(random, [0, 3])]! });
  const from = Math.round(first.lifeDays * between(random, [0.6, 1.2]));
  const to = from + whole(random, of.downDays);
  const start = first.smooth(from) - of.share * LIMIT - second.smooth(0);
  return {
    days: to + whole(random, of.daysAfter),
    smooth: (day) => (day < to ? first.smooth(Math.min(day, from)) : start + second.smooth(day - to)),
    down: { from, to },
  };
}

/** A cycle whose days are stretched by a pace. */
function cycleOf(random: Random, { kind, pace }: { kind: GrowingKind; pace: Range }) {
  const cycle = simulateCycle(random, kind);
  const stretch = between(random, pace);
  return { lifeDays: cycle.lifeDays * stretch, smooth: (day: number) => cycle.smooth(day / stretch) };
}

/** Daily figures of a record: the truth under everything that disturbs it. */
export function observe(random: Random, { days, smooth, down }: Truth, of: Disturbances): DailyColumns {
  const noise = noiseOf(random, of);
  const slow = slowOf(random, of);
  const regime = regimesOf(random, days, of);
  const rises = spells(random, days, { count: of.rises, length: of.riseDays });
  const height = between(random, of.riseHeight);
  const outages = spells(random, days, { count: of.outages, length: of.outageDays });
  const missing = between(random, of.missing);
  const daily = makeDailyColumns(days);
  for (let day = 0; day < days; day++) {
    const rise = rises.some((spell) => isWithin(day, spell)) ? height : 0;
    const disturbance = noise() + slow(day) + regime(day) + rise;
    const isMissing = random.uniform() < missing;
    daily.day[day] = FIRST_DAY + day;
    if (isMissing || outages.some((spell) => isWithin(day, spell))) continue;
    if (down !== null && isWithin(day, down)) continue;
    daily.firstAccepted[day] = (FIRST_DAY + day) * DAY_MS;
    daily.lastAccepted[day] = (FIRST_DAY + day) * DAY_MS + 23 * 3_600_000;
    daily.foulingResistance[day] = smooth(day) + LIMIT * disturbance;
  }
  return daily;
}

type Spell = { from: number; to: number };
const isWithin = (day: number, { from, to }: Spell) => day >= from && day < to;

function spells(random: Random, days: number, { count, length }: { count: Range; length: Range }): Spell[] {
  return Array.from({ length: whole(random, count) }, () => {
    const from = random.uniform() * days;
    return { from, to: from + between(random, length) };
  });
}

function noiseOf(random: Random, of: Disturbances): () => number {
  const deviation = between(random, of.noise);
  const outlying = between(random, of.outlying);
  const next = correlated(random, between(random, of.autocorrelation), of.hasHeavyTails);
  const drift = correlated(random, Math.exp(-1 / between(random, of.driftDays)), false);
  const driftDeviation = between(random, of.drift);
  return () => {
    const far = random.uniform() < outlying ? between(random, [3, 8]) * Math.sign(random.normal()) : 0;
    return deviation * (next() + far) + driftDeviation * drift();
  };
}

/** AR(1) of unit variance. */
function correlated(random: Random, phi: number, hasHeavyTails: boolean): () => number {
  const innovation = () => (hasHeavyTails ? studentT(random) : random.normal());
  let state = random.normal();
  return () => {
    state = phi * state + Math.sqrt(1 - phi * phi) * innovation();
    return state;
  };
}

/** Student's t with 5 degrees of freedom, scaled to unit variance. */
function studentT(random: Random): number {
  let squares = 0;
  for (let k = 0; k < 5; k++) squares += random.normal() ** 2;
  return (random.normal() / Math.sqrt(squares / 5)) * Math.sqrt(3 / 5);
}

function slowOf(random: Random, of: Disturbances): (day: number) => number {
  const sine = (amplitude: number, period: number) => {
    const phase = 2 * Math.PI * random.uniform();
    return (day: number) => amplitude * Math.sin((2 * Math.PI * day) / period + phase);
  };
  const season = sine(between(random, of.season), 365.25);
  const wander = sine(between(random, of.wander), between(random, of.wanderDays));
  const week = between(random, of.week);
  return (day) => season(day) + wander(day) + (day % 7 >= 5 ? week : 0);
}

function regimesOf(random: Random, days: number, of: Disturbances): (day: number) => number {
  const bias = between(random, of.regime);
  const changes: number[] = [];
  for (let at = 0; at < days; at += between(random, of.regimeDays)) changes.push(at);
  return (day) => (changes.filter((at) => at <= day).length % 2 === 0 ? bias : 0);
}
