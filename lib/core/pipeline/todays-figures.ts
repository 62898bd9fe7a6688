import { losingUnit } from '../cost/losing-unit';
import type { CleaningResult } from '../cycles/cleaning-result';
import type { CycleSpan } from '../cycles/split-cycles';
import type { Exchanger } from '../exchange/exchanger';
import { makeFluid } from '../fluids/make-fluid';
import { cleanlinessOf } from '../fouling/conductance-figures';
import type { Growth } from '../growth/growth';
import type { DailyColumns } from '../series/daily-columns';
import { bandFromToday } from './band-from-today';
import { recentLostDuty } from './energy-lost';
import { type Lending, spreadOfNextRate } from './lending';
import { governingLimit, type JudgedLimit, judgeLimit, unreached } from './limit-results';
import { type Outlook, outlookOf } from './outlook';
import { type RecentConditions, recentConditions } from './recent-conditions';
import { NO_DATA_DAYS, unitState } from './unit-state';
import type { Cycle, UnitTrend } from './unit-trend';
import { whatIsLeft } from './what-is-left';

export type TodayInput = {
  exchanger: Exchanger;
  /** Daily figures up to today. */
  daily: DailyColumns;
  /** The running cycle and its growth; null without any. */
  cycle: CycleSpan | null;
  /** The cycles that ended before it. */
  ended: readonly CycleSpan[];
  growth: Growth | null;
  todayLocalDay: number;
  horizonDays: number;
  /** All cycles as described, what the recorded cleanings did, and what the ended cycles tell of the next. */
  cycles: readonly Cycle[];
  cleaningResults: readonly CleaningResult[];
  lending: Lending | null;
};

type Today = Pick<
  UnitTrend,
  | 'state'
  | 'foulingResistance'
  | 'foulingResistanceUncertainty'
  | 'cleanliness'
  | 'allowanceUsed'
  | 'allowanceUsedUncertainty'
  | 'ratePerDay'
  | 'limits'
  | 'governing'
  | 'band'
  | 'lostDuty'
  | 'outlook'
>;

/**
 * What is said of the unit today: state, smooth fouling, limits and when they are reached, projected band, lost duty, outlook.
 * Without a figure of the running cycle within the last 14 days nothing is said: state 'no-data', the rest null.
 *
 * @param input unit, daily figures, running cycle with its growth, what the next is expected to be, today and horizon [days]
 * @returns figures in SI units, days as local days
 * @range  any
 * @source METHODS §6, §9 and §10
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function todaysFigures(input: TodayInput): Today {
  const { exchanger, daily, cycle, growth, todayLocalDay } = input;
  const recent = recentConditions(daily, { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) });
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
    allowanceUsedUncertainty: governing === null ? null : judged[governing]!.usedUncertainty,
    ratePerDay: growth.ratePerDay,
    limits: judged.map(({ result }) => result),
    governing,
    band: bandFromToday({ ...input, cycle }, growth),
    lostDuty: recentLostDuty(daily, cycle),
    outlook: outlookFor({ ...input, cycle, growth }, { recent, judged }),
  };
}

function outlookFor(
  input: TodayInput & { cycle: CycleSpan; growth: Growth },
  { recent, judged }: { recent: RecentConditions; judged: readonly JudgedLimit[] },
): Outlook | null {
  const { exchanger, daily, cycle, ended, growth } = input;
  return outlookOf({
    ...input,
    unit: losingUnit(exchanger, daily, [...ended, cycle]),
    recent,
    limits: judged.flatMap(({ projected }) => projected ?? []),
    left: whatIsLeft(growth, input),
    rateSpread: spreadOfNextRate(input.lending),
  });
}

function noFigures({ limits }: Exchanger): Today {
  return {
    state: 'no-data',
    foulingResistance: null,
    foulingResistanceUncertainty: null,
    cleanliness: null,
    allowanceUsed: null,
    allowanceUsedUncertainty: null,
    ratePerDay: null,
    limits: limits.map((limit) => unreached(limit, null)),
    governing: null,
    band: null,
    lostDuty: null,
    outlook: null,
  };
}

function daysToLimit(judged: JudgedLimit[], governing: number | null, today: number): number | null {
  if (governing === null) return null;
  const day = judged[governing]!.result.p50Day;
  return day === null ? null : day - today;
}
