import type { DailyColumns } from '../series/daily-columns';
import { median } from '../stats/quantile';
import { energySaved, type WonDuty } from './energy-saved';
import { type LevelBeside, levelBeside, type SmoothLevel } from './level-beside';
import { rowsWithFigures } from './rows-with-figures';
import type { CycleSpan } from './split-cycles';

/** A cycle with the smooth fouling at its first and last figure where growth was fitted; null: medians of figures are taken. */
export type CleanedCycle = CycleSpan & {
  smoothAtStart: SmoothLevel | null;
  smoothAtEnd: SmoothLevel | null;
};

/** Why a cleaning has no result. */
export type NoResultReason = 'no-figures-between' | 'too-few-before' | 'too-few-after';

/** What a cleaning did. */
export type CleaningEffect = {
  /** Smooth fouling just before and after, standard uncertainties with the systematic part [m²·K/W]. */
  before: number;
  beforeUncertainty: number;
  after: number;
  afterUncertainty: number;
  /** before − after; the systematic part is the same in both and cancels [m²·K/W]. */
  recovered: number;
  recoveredUncertainty: number;
  /** (before − after)/before with its standard uncertainty [-]; null where the unit was not significantly fouled. */
  shareRecovered: number | null;
  shareRecoveredUncertainty: number | null;
  /** The cleaning left a part of the fouling; null where no share can be told. */
  isPartial: boolean | null;
  /** Duty just after it less what it would have been with the fouling before, at the same inlets and flows [W]. */
  dutyRecovered: number | null;
  /** What it was worth until the next cleaning or today [J], and the days behind that. */
  energySoFar: number | null;
  daysCounted: number;
  daysElapsed: number;
  /** Days from the cleaning until the fouling was back at its level before; null: not yet. */
  daysUntilBack: number | null;
};

/** One cleaning inside the record and what it did. */
export type CleaningResult = {
  /** Instant of the cleaning [ms] and its local day. */
  at: number;
  localDay: number;
  effect: CleaningEffect | null;
  reason: NoResultReason | null;
};

/** Standard uncertainties beyond which a difference counts as significant [-]: about 95 % two-sided (JCGM 100 6.2). */
const COVERAGE = 2;
/** A cleaning is called partial below this share, and only if significantly below 1 [-] (own choice). */
const PARTIAL_BELOW = 0.8;
/** Figures whose median must reach the level before, for the fouling to be back there [-]. */
const FIGURES_BACK = 5;

/**
 * Results of the cleanings between the cycles of a record: fouling before and after, share recovered, duty and energy won,
 * and the time until the fouling was back.
 *
 * The energy is a floor: without the cleaning the loss would have gone on rising, and days without figures are not counted.
 *
 * @param daily  daily figures of the unit
 * @param cycles all cycles of the record in order, as `splitCycles` gives them
 * @param wonDuty duty of a day less that at another fouling [W]
 * @returns one result per cleaning with a cycle on either side, in order
 * @range  any; without an effect there is a reason
 * @source METHODS §8; uncertainties: JCGM 100:2008 (GUM) 5.1 and 5.2 (correlated systematic parts)
 * @check  tests/core/cycles/cleaning-result.test.ts
 */
export function cleaningResults(
  daily: DailyColumns,
  cycles: readonly CleanedCycle[],
  wonDuty: WonDuty,
): CleaningResult[] {
  return cycles.slice(1).map((cycle, k) => {
    const { start, startDay: localDay, smoothAtStart } = cycle;
    const previous = cycles[k]!;
    const before = levelBeside(daily, previous, { localDay, side: 'before', smooth: previous.smoothAtEnd });
    const after = levelBeside(daily, cycle, { localDay, side: 'after', smooth: smoothAtStart });
    const cleaning = { at: start!, localDay };
    if (before === null || after === null) {
      const isSilent = (own: CleanedCycle) =>
        own.start !== null && own.end !== null && rowsWithFigures(daily, own).length === 0;
      const tooFew = before === null ? 'too-few-before' : 'too-few-after';
      return {
        ...cleaning,
        effect: null,
        reason: isSilent(previous) || isSilent(cycle) ? 'no-figures-between' : tooFew,
      };
    }
    return { ...cleaning, effect: effectOf(daily, cycle, { before, after, wonDuty }), reason: null };
  });
}

type Levels = { before: LevelBeside; after: LevelBeside; wonDuty: WonDuty };

function effectOf(
  daily: DailyColumns,
  cycle: CleanedCycle,
  { before, after, wonDuty }: Levels,
): CleaningEffect {
  const won = after.rows.map((row) => wonDuty(row, before.value)).filter((duty) => !Number.isNaN(duty));
  return {
    before: before.value,
    beforeUncertainty: Math.hypot(before.uncertainty, before.systematic),
    after: after.value,
    afterUncertainty: Math.hypot(after.uncertainty, after.systematic),
    recovered: before.value - after.value,
    recoveredUncertainty: Math.hypot(before.uncertainty, after.uncertainty),
    ...shareOf(before, after),
    dutyRecovered: won.length === 0 ? null : median(won),
    ...energySaved(daily, cycle, { before: before.value, wonDuty }),
    daysUntilBack: daysUntilBack(daily, cycle, before.value),
  };
}

/** The systematic part moves both levels alike: d(share)/d(it) = −share/before. */
function shareOf(
  before: LevelBeside,
  after: LevelBeside,
): Pick<CleaningEffect, 'shareRecovered' | 'shareRecoveredUncertainty' | 'isPartial'> {
  const isFouled = before.value > COVERAGE * Math.hypot(before.uncertainty, before.systematic);
  if (!isFouled) return { shareRecovered: null, shareRecoveredUncertainty: null, isPartial: null };
  const left = after.value / before.value;
  const share = 1 - left;
  const uncertainty =
    Math.hypot(after.uncertainty, left * before.uncertainty, share * before.systematic) / before.value;
  return {
    shareRecovered: share,
    shareRecoveredUncertainty: uncertainty,
    isPartial: share < PARTIAL_BELOW && share + COVERAGE * uncertainty < 1,
  };
}

/** Days from the start of a cycle to the middle of the first five figures in a row whose median reaches a level. */
function daysUntilBack(daily: DailyColumns, cycle: CleanedCycle, level: number): number | null {
  const rows = rowsWithFigures(daily, cycle);
  for (let k = 0; k + FIGURES_BACK <= rows.length; k++) {
    const five = rows.slice(k, k + FIGURES_BACK);
    if (median(five.map((row) => daily.foulingResistance[row]!)) < level) continue;
    return daily.day[five[(FIGURES_BACK - 1) / 2]!]! - cycle.startDay;
  }
  return null;
}
