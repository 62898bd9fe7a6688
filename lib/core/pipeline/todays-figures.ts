import type { CycleSpan } from '../cycles/split-cycles';
import type { Exchanger } from '../exchange/exchanger';
import { cleanlinessOf } from '../fouling/conductance-figures';
import { canProject } from '../growth/can-project';
import type { Band, Growth } from '../growth/growth';
import { projectBand } from '../growth/project-band';
import type { DailyColumns } from '../series/daily-columns';
import { recentLostDuty } from './energy-lost';
import { governingLimit, type JudgedLimit, judgeLimit, unreached } from './limit-results';
import { recentConditions } from './recent-conditions';
import { NO_DATA_DAYS, unitState } from './unit-state';
import type { UnitTrend } from './unit-trend';

/** Points of the projected band [-]: a smooth line at any width. */
const BAND_POINTS = 60;

export type TodayInput = {
  exchanger: Exchanger;
  /** Daily figures up to today. */
  daily: DailyColumns;
  /** The running cycle and its growth; null without any. */
  cycle: CycleSpan | null;
  growth: Growth | null;
  todayLocalDay: number;
  horizonDays: number;
};

type Today = Pick<
  UnitTrend,
  | 'state'
  | 'foulingResistance'
  | 'foulingResistanceUncertainty'
  | 'cleanliness'
  | 'allowanceUsed'
  | 'ratePerDay'
  | 'limits'
  | 'governing'
  | 'band'
  | 'lostDuty'
>;

/**
 * What is said of the unit today: state, smooth fouling, limits and when they are reached, projected band, lost duty.
 * Without a figure of the running cycle within the last 14 days nothing is said: state 'no-data', the rest null.
 *
 * @param input unit, daily figures, running cycle with its growth, today and horizon [days]
 * @returns figures in SI units, days as local days
 * @range  any
 * @source METHODS §6, §9 and §10
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function todaysFigures(input: TodayInput): Today {
  const { exchanger, daily, cycle, growth, todayLocalDay } = input;
  const recent = recentConditions(daily, exchanger.hot.kind === 'steam');
  if (cycle === null || growth === null || recent === null) return noFigures(exchanger);
  const lastDay = cycle.startDay + growth.lastAgeDays;
  if (growth.models.length === 0 || todayLocalDay - lastDay > NO_DATA_DAYS) return noFigures(exchanger);
  const judged = exchanger.limits.map((limit) => judgeLimit({ ...input, cycle, growth, recent }, limit));
  const governing = governingLimit(judged);
  const used = governing === null ? null : judged[governing]!.used;
  return {
    state: unitState({
      used,
      isExceeded: judged.some((limit) => (limit.used ?? 0) >= 1),
      daysToLimit: daysToLimit(judged, governing, todayLocalDay),
    }),
    foulingResistance: growth.foulingResistance,
    foulingResistanceUncertainty: growth.foulingResistanceUncertainty,
    cleanliness: cleanlinessOf(growth.foulingResistance, recent.cleanU),
    allowanceUsed: used,
    ratePerDay: growth.ratePerDay,
    limits: judged.map(({ result }) => result),
    governing,
    band: canProject(growth) ? bandFromToday(input, cycle, growth) : null,
    lostDuty: recentLostDuty(daily, cycle),
  };
}

function noFigures({ limits }: Exchanger): Today {
  return {
    state: 'no-data',
    foulingResistance: null,
    foulingResistanceUncertainty: null,
    cleanliness: null,
    allowanceUsed: null,
    ratePerDay: null,
    limits: limits.map((limit) => unreached(limit, null)),
    governing: null,
    band: null,
    lostDuty: null,
  };
}

function daysToLimit(judged: JudgedLimit[], governing: number | null, today: number): number | null {
  if (governing === null) return null;
  const day = judged[governing]!.result.p50Day;
  return day === null ? null : day - today;
}

function bandFromToday({ todayLocalDay, horizonDays }: TodayInput, cycle: CycleSpan, growth: Growth): Band {
  const ageToday = Math.max(0, todayLocalDay - cycle.startDay);
  const ages = Float64Array.from(
    { length: BAND_POINTS },
    (_, i) => ageToday + (horizonDays * i) / (BAND_POINTS - 1),
  );
  return projectBand({ growth, ages });
}
