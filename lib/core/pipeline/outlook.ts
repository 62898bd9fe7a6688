import type { LosingUnit } from '../cost/losing-unit';
import { type LatelyGiven, lossAtFouling } from '../cost/loss-at-fouling';
import { type LossTable, lossTable } from '../cost/loss-table';
import type { CycleSpan } from '../cycles/split-cycles';
import { canProject } from '../growth/can-project';
import type { Growth } from '../growth/growth';
import { projectionAlong } from '../growth/project-expectation';
import { type Restart, restartGrowth } from '../growth/restart-growth';
import { smoothFouling } from '../growth/smooth-fouling';
import type { DailyColumns } from '../series/daily-columns';
import { alongStraightLines } from '../series/straight-lines';
import type { ProjectedLimit } from './limit-results';
import type { RecentConditions } from './recent-conditions';
import { recentMedian } from './recent-median';

/** Steps of the outlook [days]: cleanings are planned by the week. */
const STEP_DAYS = 7;
/** Fouling is clear of nothing from this many standard uncertainties on [-]: about 95 % two-sided (JCGM 100 6.2). */
const COVERAGE = 2;

/**
 * Between the ages at which they are worked out, expected losses may be off by no more than this share of themselves, and
 * probabilities by no more than this [-]: it costs the most, and no projection is known to a hundredth of it.
 */
const MOST_OFF = 1e-3;
const OF_LOSSES = { share: MOST_OFF, least: 0 };
const OF_PROBABILITY = { share: MOST_OFF, least: 1 };

/** What fouling is expected to cost from today on, left as it is and after a cleaning; plain numbers, so that it can be kept. */
export type Outlook = {
  /** 0, 7, … to the horizon [days]: since today if left, since the end of the cleaning after one. */
  ageDays: number[];
  /** Expected lost duty [W]. */
  lostDuty: number[];
  lostDutyAfter: number[];
  /** Expected extra electric power of the pumps [W]; 0 throughout where nothing is known of it. */
  pumping: number[];
  pumpingAfter: number[];
  isPumpingKnown: boolean;
  /** Probability that a limit is reached by then [-]. */
  reached: number[];
  reachedAfter: number[];
  /** Recent duty: what is lost while the unit is out of service [W]. */
  duty: number;
  /** Fouling that a cleaning leaves. */
  left: WhatIsLeft;
};

/** Fouling that a cleaning leaves [m²·K/W], its standard deviation for one more cleaning, and what says so. */
export type WhatIsLeft = {
  value: number;
  uncertainty: number;
  /** Results of this unit's cleanings, where its cycles began, or nothing but where the running cycle began. */
  from: 'own-cleanings' | 'cycle-starts' | 'nothing';
  /** Of how many cleanings, or cycles. */
  cleanings: number;
};

export type OutlookInput = {
  unit: LosingUnit;
  /** Daily figures up to today. */
  daily: DailyColumns;
  cycle: Pick<CycleSpan, 'startDay'>;
  growth: Growth;
  recent: RecentConditions;
  /** Limits that have a growth to reach them by. */
  limits: readonly ProjectedLimit[];
  left: WhatIsLeft;
  /** Relative standard deviation of the rate from cycle to cycle [-]. */
  rateSpread: number;
  todayLocalDay: number;
  horizonDays: number;
};

/**
 * What fouling is expected to cost from today on under recent conditions: if left, and from a cleaning on.
 *
 * After a cleaning the running cycle's growth begins anew from what cleanings leave, at a rate as uncertain as cycles differ.
 * Expected losses are means over the projected fouling. Limits move together: the probability that any is reached is the
 * largest of theirs.
 *
 * @param input unit, daily figures, running cycle with its growth, limits, what a cleaning leaves, today and horizon [days]
 * @returns expected losses [W] and probabilities [-] by age [days]; null where it is too early to project
 * @range  any
 * @source METHODS §9 and §10; see `projectionAlong`
 * @check  tests/core/pipeline/outlook.test.ts
 */
export function outlookOf(input: OutlookInput): Outlook | null {
  const { daily, growth, cycle, left, rateSpread, todayLocalDay } = input;
  if (!canProject(growth)) return null;
  const ageDays = agesTo(input.horizonDays);
  const ageToday = Math.max(0, todayLocalDay - cycle.startDay);
  const losses = lossTable(lossAtFouling(input.unit, latelyGiven(input)), input.recent.cleanU);
  const course = { input, losses };
  const ifLeft = courseOf(growth, { ...course, ages: ageDays.map((age) => ageToday + age), restart: null });
  const restart = { level: left.value, levelUncertainty: left.uncertainty, rateSpread };
  const after = courseOf(restartGrowth(growth, restart), { ...course, ages: ageDays, restart });
  return {
    ageDays,
    lostDuty: ifLeft.lostDuty,
    lostDutyAfter: after.lostDuty,
    pumping: ifLeft.pumping,
    pumpingAfter: after.pumping,
    isPumpingKnown: ifLeft.isPumpingKnown,
    reached: ifLeft.reached,
    reachedAfter: after.reached,
    duty: recentMedian(daily, daily.duty),
    left,
  };
}

function agesTo(horizonDays: number): number[] {
  const whole = Array.from({ length: Math.floor(horizonDays / STEP_DAYS) + 1 }, (_, i) => i * STEP_DAYS);
  return whole.at(-1) === horizonDays ? whole : [...whole, horizonDays];
}

function latelyGiven({ daily, growth, recent }: OutlookInput): LatelyGiven {
  const { foulingResistance, foulingResistanceUncertainty } = growth;
  return {
    conditions: {
      ...recent,
      hotMassFlow: recentMedian(daily, daily.hotMassFlow),
      coldMassFlow: recentMedian(daily, daily.coldMassFlow),
    },
    fouling: foulingResistance,
    isClearlyFouled: foulingResistance > COVERAGE * foulingResistanceUncertainty,
    pressureDrop: {
      hot: recentMedian(daily, daily.hotPressureDrop),
      cold: recentMedian(daily, daily.coldPressureDrop),
    },
  };
}

type Course = Pick<Outlook, 'lostDuty' | 'pumping' | 'isPumpingKnown' | 'reached'>;
type CourseInput = {
  /** Days since the growth began. */
  ages: readonly number[];
  input: OutlookInput;
  losses: LossTable;
  restart: { rateSpread: number } | null;
};

/** Expected losses and probabilities along one course of the fouling. */
function courseOf(growth: Growth, { ages, input, losses, restart }: CourseInput): Course {
  const projection = projectionAlong(growth, ages);
  const own = input.limits.filter((limit) => limit.growth === input.growth);
  const others = input.limits.filter((limit) => limit.growth !== input.growth);
  const [lostDuty, pumping, ...reached] = alongStraightLines(ages, {
    tolerances: [OF_LOSSES, OF_LOSSES, ...own.map(() => OF_PROBABILITY)],
    at: (index) => {
      const expected = losses.expected(projection.foulingAt(index), projection.weights);
      return [
        expected.lostDuty,
        expected.pumping,
        ...own.map(({ level }) => projection.reachedAt(index, level)),
      ];
    },
  });
  const reachedOtherwise = others.map(({ growth: other, level }) => {
    const from = restart === null ? other : restartGrowth(other, freshStart(other, restart.rateSpread));
    const { reachedAt } = projectionAlong(from, ages);
    return alongStraightLines(ages, {
      tolerances: [OF_PROBABILITY],
      at: (index) => [reachedAt(index, level)],
    })[0]!;
  });
  const isPumpingKnown = pumping!.every(Number.isFinite);
  return {
    lostDuty: Array.from(lostDuty!),
    pumping: isPumpingKnown ? Array.from(pumping!) : ages.map(() => 0),
    isPumpingKnown,
    reached: greatest(ages.length, [...reached, ...reachedOtherwise]),
  };
}

/** The greatest of some rows at each place; 0 without any. */
function greatest(length: number, rows: readonly ArrayLike<number>[]): number[] {
  const most = new Array<number>(length).fill(0);
  for (const row of rows) {
    for (let i = 0; i < length; i++) most[i] = Math.max(most[i]!, row[i]!);
  }
  return most;
}

/** A growth of its own, such as that of a pressure drop, begins anew where it began. */
function freshStart(growth: Growth, rateSpread: number): Restart {
  return {
    level: smoothFouling(growth, 0),
    levelUncertainty: growth.foulingResistanceUncertainty,
    rateSpread,
  };
}
