import { type CleaningResult, cleaningResults } from '../cycles/cleaning-result';
import type { SmoothLevel } from '../cycles/level-beside';
import type { Exchanger } from '../exchange/exchanger';
import type { Growth } from '../growth/growth';
import type { DailyColumns } from '../series/daily-columns';
import type { BegunSpan } from './cycle-spans';
import type { Cycle } from './unit-trend';
import { wonDutyOf } from './won-duty';

/**
 * What the recorded cleanings within a record did, by the smooth fouling of the cycles on either side.
 *
 * @param exchanger the unit
 * @param daily  daily figures of the unit
 * @param of     all cycles in order, and the same as described, with their growth
 * @returns one result per recorded cleaning with a cycle before it; none for what is only probable
 * @range  any
 * @source METHODS §8
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function judgeCleanings(
  exchanger: Exchanger,
  daily: DailyColumns,
  { spans, cycles }: { spans: readonly BegunSpan[]; cycles: readonly Cycle[] },
): CleaningResult[] {
  const smoothed = spans.map((span, index) => {
    const { foulingAtStart, foulingAtEnd, growth } = cycles[index]!;
    return {
      ...span,
      smoothAtStart: smoothLevel(growth, foulingAtStart),
      smoothAtEnd: smoothLevel(growth, foulingAtEnd),
    };
  });
  return cleaningResults(daily, smoothed, wonDutyOf(exchanger, daily)).filter(
    (_, k) => spans[k + 1]!.began === 'cleaning',
  );
}

/** A level of a fitted growth: known about as well at either end of the figures as by their scatter and count. */
function smoothLevel(growth: Growth | null, value: number | null): SmoothLevel | null {
  if (growth === null || value === null || growth.models.length === 0) return null;
  const independent = (growth.count * (1 - growth.autocorrelation)) / (1 + growth.autocorrelation);
  // The end of a line through n independent figures: 2σ/√n.
  const uncertainty = (2 * growth.residualDeviation) / Math.sqrt(Math.max(1, independent));
  return { value, uncertainty };
}
