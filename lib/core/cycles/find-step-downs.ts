import { stepCorrelations } from '../fit/autoregressive';
import type { DailyColumns } from '../series/daily-columns';
import { hampelSpikes } from '../stats/hampel';
import { median } from '../stats/quantile';
import { NORMAL_CONSISTENCY } from '../stats/spread';
import { findSteps } from './find-steps';
import { lastingSteps } from './lasting-steps';
import { decidesAlike, isReached, type LeastFall, leastFallOf } from './least-fall';
import { FEWEST_BESIDE, type LevelChange } from './level-change';
import { rowsWithFigures } from './rows-with-figures';
import type { CycleSpan } from './split-cycles';
import { stepNoise } from './step-noise';

/** A fall of the fouling that no recorded cleaning explains: a probable cleaning, for a person to confirm. */
export type StepDown = {
  /** First local day with a figure after the fall [days since 1970-01-01]. */
  day: number;
  /** Instants of the last accepted reading before it and the first after it [ms]. */
  earliest: number;
  latest: number;
  /** Smooth levels just before and after it [m²·K/W]. */
  before: number;
  after: number;
  /** before − after, with its standard uncertainty from the scatter of the figures [m²·K/W]. */
  fall: number;
  fallUncertainty: number;
  /** The fall as a share of the allowance [-]; null without an allowance. */
  share: number | null;
};

/** Figures of one cycle: their rows among the daily figures, days and values, ascending, equal lengths. */
type CycleFigures = { rows: number[]; t: Float64Array; y: Float64Array };

/** A fall smaller than this share of the allowance is not worth asking a person about [-] (own choice). */
const LEAST_SHARE = 0.2;
/** Nor is one that could not be seen by eye: fewer standard deviations of a daily figure than this [-] (own choice). */
const LEAST_DEVIATIONS = 3;
/** Figures to either side that a spike of single days is judged against [-]; spikes of up to five days are left out. */
const SPIKE_HALF_WINDOW = 5;

/**
 * Probable cleanings within one cycle between recorded ones: days on which the fouling falls to a lower level and stays there.
 * On simulated records less than one in 10 unit-years is named where there is none, and 96 to 99 % of the cleanings by half
 * the allowance are found; a rise or a dip of up to a month that comes back by itself is not named.
 *
 * @param daily daily figures of the unit
 * @param span  rows of the cycle, `from` included, `to` excluded
 * @param input allowance: fouling resistance at the governing limit [m²·K/W], or null
 * @returns falls in order of time; none with fewer than 5 figures on either side
 * @range  any
 * @source binary segmentation: Scott & Knott, Biometrics 30 (1974) 507-512; Vostrikova, Soviet Math. Dokl. 24 (1981) 55-59
 * @check  tests/properties/cycles.test.ts
 */
export function findStepDowns(
  daily: DailyColumns,
  span: Pick<CycleSpan, 'from' | 'to'>,
  { allowance }: { allowance: number | null },
): StepDown[] {
  return searchStepDowns(daily, span, { allowance }).falls;
}

/** What was found in a cycle, and by what a fall was judged to be large enough. */
export type StepSearch = {
  falls: StepDown[];
  /** Standard deviation of a daily figure [m²·K/W]. */
  deviation: number;
  least: LeastFall;
};

/**
 * Falls of the fouling within one cycle with what they were judged by, so that they need not be looked for again.
 *
 * @param daily     daily figures
 * @param span      rows of the cycle
 * @param allowance fouling resistance at the limit [m²·K/W]; null without one
 * @returns falls as of `findStepDowns`, ascending; fouling and deviations in m²·K/W
 * @range  as for `findStepDowns`
 * @source as for `findStepDowns`
 * @check  tests/core/cycles/find-step-downs.test.ts
 */
export function searchStepDowns(
  daily: DailyColumns,
  span: Pick<CycleSpan, 'from' | 'to'>,
  { allowance }: { allowance: number | null },
): StepSearch {
  const all = figuresAt(daily, rowsWithFigures(daily, span));
  if (all.t.length < 2 * FEWEST_BESIDE)
    return { falls: [], deviation: 0, least: leastFallOf(leastOf(allowance, 0)) };
  const spikes = hampelSpikes(all.y, SPIKE_HALF_WINDOW, { scaleFloor: dayToDay(all.y) });
  const figures = figuresAt(
    daily,
    all.rows.filter((_, i) => spikes[i] === 0),
  );
  const { deviation, autocorrelation } = stepNoise(figures.t, figures.y);
  const least = leastFallOf(leastOf(allowance, deviation));
  const correlations = stepCorrelations(figures.t, autocorrelation);
  const falls = lastingSteps(figures.t, findSteps({ ...figures, deviation, correlations }, least))
    .filter((step) => isReached(least, step.fall) && step.fall > least.value)
    .map((step) => stepDownOf(daily, { figures, step, allowance }));
  return { falls, deviation, least };
}

function leastOf(allowance: number | null, deviation: number): number {
  return Math.max(LEAST_SHARE * (allowance ?? 0), LEAST_DEVIATIONS * deviation);
}

/**
 * What an earlier search of the same figures would find with another allowance; null where it has to be made again.
 *
 * @param search    the earlier one
 * @param allowance fouling resistance at the limit [m²·K/W]; null without one
 * @returns the same falls, each as a share of this allowance [-]
 * @range  any
 * @source none: bookkeeping only
 * @check  tests/core/cycles/find-step-downs.test.ts
 */
export function searchWith(search: StepSearch, allowance: number | null): StepSearch | null {
  if (!decidesAlike(search.least, leastOf(allowance, search.deviation))) return null;
  const falls = search.falls.map((fall) => ({
    ...fall,
    share: allowance === null ? null : fall.fall / allowance,
  }));
  return { ...search, falls };
}

/** Scale of a figure from the differences of neighbours: a floor for windows that happen to be quiet. */
function dayToDay(y: Float64Array): number {
  const steps = new Float64Array(y.length - 1);
  for (let i = 0; i < steps.length; i++) steps[i] = Math.abs(y[i + 1]! - y[i]!);
  return (NORMAL_CONSISTENCY * median(steps)) / Math.SQRT2;
}

function figuresAt({ day, foulingResistance }: DailyColumns, rows: number[]): CycleFigures {
  const t = new Float64Array(rows.length);
  const y = new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i++) {
    t[i] = day[rows[i]!]!;
    y[i] = foulingResistance[rows[i]!]!;
  }
  return { rows, t, y };
}

function stepDownOf(
  daily: DailyColumns,
  { figures, step, allowance }: { figures: CycleFigures; step: LevelChange; allowance: number | null },
): StepDown {
  const last = figures.rows[step.place - 1]!;
  const first = figures.rows[step.place]!;
  const { before, after, fall, uncertainty } = step;
  return {
    day: daily.day[first]!,
    earliest: daily.lastAccepted[last]!,
    latest: daily.firstAccepted[first]!,
    before,
    after,
    fall,
    fallUncertainty: uncertainty,
    share: allowance === null ? null : fall / allowance,
  };
}
