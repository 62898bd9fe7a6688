import type { CycleSpan } from '../cycles/split-cycles';
import type { Exchanger, Limit, Side } from '../exchange/exchanger';
import { standardUncertainty } from '../fouling/unit-model';
import { canProject } from '../growth/can-project';
import { fitGrowth, type GrowthInput } from '../growth/fit-growth';
import type { Growth } from '../growth/growth';
import { crossedAge, projectCrossing } from '../growth/project-crossing';
import { smoothFouling } from '../growth/smooth-fouling';
import type { DailyColumns } from '../series/daily-columns';
import { median } from '../stats/quantile';
import { bandFromToday } from './band-from-today';
import { endedCycle, expectation, lendingOf } from './lending';
import { limitFouling } from './limit-fouling';
import type { RecentConditions } from './recent-conditions';
import type { LimitResult } from './unit-trend';

/** A crossing this close to a whole day counts as that day [days]. */
const DAY_ROUNDING = 1e-6;

export type LimitInput = {
  exchanger: Exchanger;
  daily: DailyColumns;
  cycle: CycleSpan;
  /** The cycles before it, the oldest first: what a pressure drop did in them is to be expected of it again. */
  ended: readonly CycleSpan[];
  growth: Growth;
  recent: RecentConditions;
  todayLocalDay: number;
  horizonDays: number;
};

/**
 * A limit judged, and the share of it used up with its standard uncertainty [-]; null where no fouling leads to it, or the
 * share has no scale. The limit itself counts as known.
 */
export type JudgedLimit = {
  result: LimitResult;
  used: number | null;
  usedUncertainty: number | null;
  /** What the limit is projected by; null where nothing can be projected. */
  projected: ProjectedLimit | null;
};

/** A growth and the level at which it reaches a limit: fouling [m²·K/W], or the limit's own pressure drop [Pa]. */
export type ProjectedLimit = { growth: Growth; level: number };

/**
 * Judges one limit: the fouling it allows under recent conditions, when it is reached, and the share of it used.
 *
 * @param input unit, running cycle with its growth [m²·K/W], recent conditions, today and horizon [days]
 * @param limit one of the unit's limits
 * @returns result in local days; share used [-]: smooth fouling over the limit's, or growth of the pressure drop over the
 *   growth allowed
 * @range  any
 * @source METHODS §9
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function judgeLimit(input: LimitInput, limit: Limit): JudgedLimit {
  if (limit.kind === 'pressure-drop') return judgePressureDrop(input, limit);
  const allowed = limitFouling(input.exchanger, limit, input.recent);
  if (allowed === null) return notJudged(unreached(limit, 0));
  const result = crossingOf(input, { limit, growth: input.growth, level: allowed });
  return {
    result: { ...result, foulingResistance: allowed },
    used: shareUsed(input.growth.foulingResistance, 0, allowed),
    usedUncertainty: allowed > 0 ? input.growth.foulingResistanceUncertainty / allowed : null,
    projected: projectedBy(input.growth, allowed),
  };
}

function judgePressureDrop(input: LimitInput, limit: Extract<Limit, { kind: 'pressure-drop' }>): JudgedLimit {
  const growth = pressureDropGrowth(input, limit.stream);
  if (growth === null) return notJudged(unreached(limit, null));
  const pressureDrop = {
    value: growth.foulingResistance,
    uncertainty: growth.foulingResistanceUncertainty,
    atStart: smoothFouling(growth, 0),
    band: bandFromToday(input, growth),
  };
  const result = { ...crossingOf(input, { limit, growth, level: limit.above }), pressureDrop };
  const way = limit.above - pressureDrop.atStart;
  return {
    result,
    used: shareUsed(pressureDrop.value, pressureDrop.atStart, limit.above),
    usedUncertainty: way > 0 ? pressureDrop.uncertainty / way : null,
    projected: projectedBy(growth, limit.above),
  };
}

function projectedBy(growth: Growth, level: number): ProjectedLimit | null {
  return canProject(growth) ? { growth, level } : null;
}

function notJudged(result: LimitResult): JudgedLimit {
  return { result, used: null, usedUncertainty: null, projected: null };
}

/** Ended cycles whose pressure drop informs that of the running one [-] (own choice). */
const LENDING_CYCLES = 6;

/** The growth models fitted to the pressure drop at the design flow [Pa]; null where the cycle has none measured. */
function pressureDropGrowth(input: LimitInput, side: Side): Growth | null {
  const figures = pressureDropFigures(input, input.cycle, side);
  if (figures === null) return null;
  const ended = input.ended.slice(-LENDING_CYCLES).flatMap((cycle) => {
    const earlier = pressureDropFigures(input, cycle, side);
    const told = earlier === null ? null : endedCycle(earlier, fitGrowth(earlier));
    return told === null ? [] : [told];
  });
  const { expected } = expectation(lendingOf(ended));
  return { ...fitGrowth({ ...figures, ...expected }), widening: input.growth.widening };
}

function pressureDropFigures(
  { daily, exchanger }: LimitInput,
  cycle: Pick<CycleSpan, 'from' | 'to' | 'startDay'>,
  side: Side,
): GrowthInput | null {
  const column = daily[`${side}PressureDrop`];
  const sensor = exchanger.sensors[`${side}PressureDrop`];
  const rows: number[] = [];
  for (let row = cycle.from; row < cycle.to; row++) if (!Number.isNaN(column[row]!)) rows.push(row);
  if (rows.length === 0) return null;
  const uncertainty = rows.map((row) => standardUncertainty(sensor, column[row]!));
  return {
    ageDays: rows.map((row) => Math.max(0, daily.day[row]! - cycle.startDay)),
    foulingResistance: rows.map((row) => column[row]!),
    uncertainty: uncertainty.map((each) => each * Math.sqrt(1 - sensor.systematicShare)),
    systematicUncertainty: median(uncertainty) * Math.sqrt(sensor.systematicShare),
  };
}

/** Share of the way from where the cycle began to the limit; at or beyond a limit without any way left, all of it. */
function shareUsed(now: number, start: number, allowed: number): number {
  if (allowed > start) return (now - start) / (allowed - start);
  return now >= allowed ? 1 : 0;
}

/**
 * A limit without days: no fouling leads to it (probability 0), or there is nothing to judge it by (null).
 *
 * @param limit         one of the unit's limits
 * @param withinHorizon probability of reaching it [-], null for not known
 * @returns a result without days
 * @range  any
 * @source none: convention
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function unreached(limit: Limit, withinHorizon: 0 | null): LimitResult {
  return {
    limit,
    foulingResistance: null,
    p10Day: null,
    p50Day: null,
    p90Day: null,
    withinHorizon,
    crossedDay: null,
    crossing: null,
    pressureDrop: null,
  };
}

function crossingOf(
  { cycle, todayLocalDay, horizonDays }: LimitInput,
  { limit, growth, level }: { limit: Limit; growth: Growth; level: number },
): LimitResult {
  const dayOf = (age: number | null) =>
    age === null ? null : cycle.startDay + Math.ceil(age - DAY_ROUNDING);
  const crossedDay = dayOf(crossedAge(growth, level));
  if (!canProject(growth)) return { ...unreached(limit, null), crossedDay };
  const ageToday = Math.max(0, todayLocalDay - cycle.startDay);
  const crossing = projectCrossing({ growth, limit: level, ageToday, horizonDays });
  return {
    limit,
    foulingResistance: null,
    p10Day: dayOf(crossing.p10),
    p50Day: dayOf(crossing.p50),
    p90Day: dayOf(crossing.p90),
    withinHorizon: crossing.withinHorizon,
    crossedDay,
    crossing,
    pressureDrop: null,
  };
}

/**
 * The limit that governs: reached first by its P50; where none is reached within the horizon, that with the highest share used.
 *
 * @param judged limits as judged
 * @returns index; null where none can be reached by fouling
 * @range  any
 * @source METHODS §9: the earliest is the unit's
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function governingLimit(judged: readonly JudgedLimit[]): number | null {
  let best: number | null = null;
  judged.forEach((candidate, index) => {
    if (candidate.used === null) return;
    if (best === null || isBefore(candidate, judged[best]!)) best = index;
  });
  return best;
}

function isBefore(a: JudgedLimit, b: JudgedLimit): boolean {
  const first = a.result.crossing?.p50 ?? null;
  const second = b.result.crossing?.p50 ?? null;
  if (first !== null || second !== null)
    return (first ?? Number.POSITIVE_INFINITY) < (second ?? Number.POSITIVE_INFINITY);
  return a.used! > b.used!;
}
