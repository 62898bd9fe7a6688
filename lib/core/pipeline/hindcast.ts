import type { CycleSpan } from '../cycles/split-cycles';
import { canProject } from '../growth/can-project';
import { fitGrowth } from '../growth/fit-growth';
import { growthRate } from '../growth/forms';
import type { Growth } from '../growth/growth';
import { projectBand } from '../growth/project-band';
import { crossedAge, projectCrossing } from '../growth/project-crossing';
import { smoothFouling } from '../growth/smooth-fouling';
import type { DailyColumns } from '../series/daily-columns';
import { cycleFigures, type Expected } from './cycle-growth';
import type { Hindcast } from './unit-trend';

/** Shares of its life at which an ended cycle is projected anew (METHODS §9). */
const SHARES_OF_LIFE = [0.25, 0.5, 0.75] as const;
/** A cycle that was cleaned before its limit is judged by the day it reached this share of its whole rise (own choice). */
const SHARE_OF_RISE = 0.95;
/** A rise of fewer standard uncertainties than this, or a day known worse than this share of the life, tells nothing (own choice). */
const LEAST_RISE = 5;
const WORST_DAY = 0.05;
/** An age this near a whole day counts as that day [days]. */
const DAY_ROUNDING = 1e-6;

export type EndedSpan = {
  daily: DailyColumns;
  span: CycleSpan;
  /** Growth of the whole cycle, and the systematic uncertainty in it [m²·K/W]. */
  whole: Growth;
  systematic: number;
  /** What was to be expected of it from the cycles before it. */
  expected: Expected;
  /** Fouling at the governing limit [m²·K/W]; null without one. */
  allowance: number | null;
  horizonDays: number;
};

/**
 * Projects an ended cycle anew from what was known at 25, 50 and 75 % of its life, and sets the answers beside the day the
 * smooth fouling of the whole cycle reached the level. A systematic error of the figures is in both, and cancels. The
 * figures are those of today's clean reference.
 *
 * @param cycle its figures and growth, what earlier cycles led to expect, allowance [m²·K/W] and horizon [days]
 * @returns up to three projections with what came of them; none where the cycle does not tell when the level was reached
 * @range  any
 * @source METHODS §9; scores of split conformal prediction: Lei et al., J. Am. Stat. Assoc. 113 (2018) 1094-1111
 * @check  tests/core/pipeline/hindcast.test.ts
 */
export function hindcasts(cycle: EndedSpan): Hindcast[] {
  const target = targetOf(cycle);
  if (target === null) return [];
  return SHARES_OF_LIFE.map((share) => hindcast(cycle, target, share)).filter((made) => made !== null);
}

type Target = { level: number; isLimit: boolean; age: number; uncertainty: number };

/** The level to be projected and when it was reached; null where the figures do not tell the day. */
function targetOf({ whole, systematic, allowance }: EndedSpan): Target | null {
  const start = smoothFouling(whole, 0);
  const rise = smoothFouling(whole, whole.lastAgeDays) - start;
  const scatter = whole.residualDeviation;
  if (!(rise > LEAST_RISE * scatter)) return null;
  const atLimit = allowance === null ? null : crossedAge(whole, allowance);
  const isLimit = atLimit !== null && atLimit > 0;
  const level = isLimit ? allowance! : start + SHARE_OF_RISE * rise;
  const age = crossedAge(whole, level);
  if (age === null || !(age > 0)) return null;
  const slope = whole.models.reduce((sum, model) => sum + model.weight * growthRate(model, age), 0);
  const random = Math.max(0, whole.foulingResistanceUncertainty ** 2 - systematic ** 2);
  const uncertainty = Math.sqrt(random) / slope;
  return uncertainty <= WORST_DAY * age ? { level, isLimit, age, uncertainty } : null;
}

function hindcast(cycle: EndedSpan, target: Target, share: number): Hindcast | null {
  const { span, expected, horizonDays } = cycle;
  const madeAge = Math.floor(share * target.age);
  const growth = growthKnown(cycle, madeAge, expected);
  if (growth === null || !canProject(growth)) return null;
  const { level } = target;
  const crossing = projectCrossing({ growth, limit: level, ageToday: madeAge, horizonDays });
  const band = projectBand({ growth, ages: [target.age] });
  const [low, middle, high] = [band.p10[0]!, band.p50[0]!, band.p90[0]!];
  const score = level > middle ? (level - middle) / (high - middle) : (middle - level) / (middle - low);
  const dayOf = (age: number | null) => (age === null ? null : span.startDay + Math.ceil(age - DAY_ROUNDING));
  return {
    cycleStartDay: span.startDay,
    madeDay: span.startDay + madeAge,
    shareOfLife: share,
    level,
    isLimit: target.isLimit,
    reachedDay: dayOf(target.age)!,
    reachedUncertainty: target.uncertainty,
    p10Day: dayOf(crossing.p10),
    p50Day: dayOf(crossing.p50),
    p90Day: dayOf(crossing.p90),
    held: score <= 1,
    score,
  };
}

/** Growth by the figures up to an age. */
function growthKnown({ daily, span }: EndedSpan, madeAge: number, expected: Expected): Growth | null {
  let to = span.from;
  while (to < span.to && daily.day[to]! <= span.startDay + madeAge) to++;
  const figures = cycleFigures(daily, { ...span, to });
  return figures === null ? null : fitGrowth({ ...figures, ...expected });
}
