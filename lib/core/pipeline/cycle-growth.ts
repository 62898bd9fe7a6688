import { rowsWithFigures } from '../cycles/rows-with-figures';
import type { CycleSpan } from '../cycles/split-cycles';
import type { Exchanger } from '../exchange/exchanger';
import { systematicLeft } from '../fouling/systematic-left';
import { fitGrowth, type GrowthInput } from '../growth/fit-growth';
import type { Growth } from '../growth/growth';
import type { DailyColumns } from '../series/daily-columns';
import { median } from '../stats/quantile';
import { RECENT_FIGURES } from './recent-conditions';

/** What is known of a cycle besides its figures. */
export type Expected = Pick<GrowthInput, 'prior' | 'forms'>;

/**
 * Growth of one cycle from its daily figures; ages are days since the cycle's first day.
 *
 * @param daily daily figures of the unit
 * @param cycle rows and start of the cycle
 * @param known what other cycles lead to expect; clean reference of the unit
 * @returns growth [m²·K/W, days]; null where the cycle has no figure
 * @range  any
 * @source see `fitGrowth`
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function cycleGrowth(
  daily: DailyColumns,
  cycle: CycleSpan,
  known: { expected: Expected; clean: Exchanger['clean'] },
): Growth | null {
  const figures = cycleFigures(daily, cycle);
  if (figures === null) return null;
  return fitGrowth({
    ...figures,
    ...known.expected,
    systematicUncertainty: cycleSystematic(daily, rowsWithFigures(daily, cycle), known.clean),
  });
}

/**
 * The daily figures of a cycle as a fit takes them.
 *
 * @param daily daily figures of the unit
 * @param cycle rows and start of the cycle
 * @returns ages [days], fouling and its random uncertainty [m²·K/W]; null where the cycle has no figure
 * @range  any
 * @source none: selection only
 * @check  tests/core/pipeline/cycle-growth.test.ts
 */
export function cycleFigures(
  daily: DailyColumns,
  cycle: Pick<CycleSpan, 'from' | 'to' | 'startDay'>,
): Pick<GrowthInput, 'ageDays' | 'foulingResistance' | 'uncertainty'> | null {
  const rows = rowsWithFigures(daily, cycle);
  if (rows.length === 0) return null;
  return {
    ageDays: rows.map((row) => Math.max(0, daily.day[row]! - cycle.startDay)),
    foulingResistance: rows.map((row) => daily.foulingResistance[row]!),
    uncertainty: rows.map((row) =>
      randomPart(daily.foulingResistanceUncertainty[row]!, daily.foulingResistanceSystematic[row]!),
    ),
  };
}

/**
 * Systematic standard uncertainty common to the figures of a cycle: what every one of them may be off by, and so the level of
 * the projection and its clean-by dates. With a learned reference it grows with the fouling; the last figures count, from
 * which the projection starts.
 *
 * @param daily daily figures of the unit
 * @param rows  rows of the cycle that have a figure, ascending
 * @param clean where the clean reference comes from
 * @returns median of the systematic parts [m²·K/W], times the share that is left; 0 without rows
 * @range  any
 * @source JCGM 100:2008 (GUM) 5.2; see `systematicLeft`
 * @check  tests/core/pipeline/cycle-growth.test.ts
 */
export function cycleSystematic(
  daily: DailyColumns,
  rows: readonly number[],
  clean: Exchanger['clean'],
): number {
  if (rows.length === 0) return 0;
  const recent = rows.slice(-RECENT_FIGURES);
  const cleanliness = median(recent.map((row) => daily.overallU[row]! / daily.cleanU[row]!));
  return (
    systematicLeft(clean, cleanliness) * median(rows.map((row) => daily.foulingResistanceSystematic[row]!))
  );
}

function randomPart(combined: number, systematic: number): number {
  return Math.sqrt(Math.max(0, combined * combined - systematic * systematic));
}
