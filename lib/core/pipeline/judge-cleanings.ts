import { type CleaningResult, cleaningResults } from '../cycles/cleaning-result';
import type { SmoothLevel } from '../cycles/level-beside';
import type { Exchanger } from '../exchange/exchanger';
import type { Growth } from '../growth/growth';
import type { DailyColumns } from '../series/daily-columns';
import type { BegunSpan } from './cycle-spans';
import { endedStand, type KnownTrend } from './standing';
import type { Cycle } from './unit-trend';
import { wonDutyOf } from './won-duty';

export type JudgedCleanings = {
  /** All cycles in order, and the same as described, with their growth. */
  spans: readonly BegunSpan[];
  cycles: readonly Cycle[];
  /** What was said of the unit before; cleanings between cycles that ended stand where nothing changed in them. */
  known?: KnownTrend | undefined;
};

/**
 * What the recorded cleanings within a record did, by the smooth fouling of the cycles on either side.
 *
 * @param exchanger the unit
 * @param daily  daily figures of the unit
 * @param of     its cycles, and what is known
 * @returns one result per recorded cleaning with a cycle before it; none for what is only probable
 * @range  any
 * @source METHODS §8
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function judgeCleanings(
  exchanger: Exchanger,
  daily: DailyColumns,
  { spans, cycles, known }: JudgedCleanings,
): CleaningResult[] {
  const ended = spans.slice(0, -1);
  const standing = known !== undefined && endedStand(known, ended) ? known.trend.cleaningResults : null;
  // A cleaning is judged by the cycle before it and the one it began.
  const first = standing === null ? 0 : Math.max(0, spans.length - 2);
  const judged = spans.slice(first);
  const smoothed = judged.map((span, k) => {
    const { foulingAtStart, foulingAtEnd, growth } = cycles[first + k]!;
    return {
      ...span,
      smoothAtStart: smoothLevel(growth, foulingAtStart),
      smoothAtEnd: smoothLevel(growth, foulingAtEnd),
    };
  });
  const results = cleaningResults(daily, smoothed, wonDutyOf(exchanger, daily)).filter(
    (_, k) => judged[k + 1]!.began === 'cleaning',
  );
  const runningSince = spans.at(-1)?.start ?? null;
  return [...(standing ?? []).filter(({ at }) => at !== runningSince), ...results];
}

/** A level of a fitted growth: known about as well at either end of the figures as by their scatter and count. */
function smoothLevel(growth: Growth | null, value: number | null): SmoothLevel | null {
  if (growth === null || value === null || growth.models.length === 0) return null;
  const independent = (growth.count * (1 - growth.autocorrelation)) / (1 + growth.autocorrelation);
  // The end of a line through n independent figures: 2σ/√n.
  const uncertainty = (2 * growth.residualDeviation) / Math.sqrt(Math.max(1, independent));
  return { value, uncertainty };
}
