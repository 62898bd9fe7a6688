import type { CycleSpan } from '../cycles/split-cycles';
import type { Exchanger } from '../exchange/exchanger';
import { systematicLeft } from '../fouling/systematic-left';
import { fitGrowth, type GrowthInput } from '../growth/fit-growth';
import type { Growth } from '../growth/growth';
import { smoothFouling } from '../growth/smooth-fouling';
import type { DailyColumns } from '../series/daily-columns';
import { median } from '../stats/quantile';
import { standardDeviation } from '../stats/spread';
import { RECENT_FIGURES } from './recent-conditions';

/** What earlier cycles or like units say of the mean rate over the first `overDays` of a cycle. */
export type GrowthPrior = NonNullable<GrowthInput['prior']>;

/** A cycle tells others how fast the unit fouls once it has this many figures over this many days (own choice). */
export const FEWEST_PRIOR_FIGURES = 14;
export const SHORTEST_PRIOR_DAYS = 21;
/** Relative standard uncertainty of a rate taken from one earlier cycle only [-], and the least from several (own choice). */
export const PRIOR_SPREAD_OF_ONE = 0.5;
export const LEAST_PRIOR_SPREAD = 0.25;

/**
 * Growth of one cycle from its daily figures; ages are days since the cycle's first day.
 *
 * @param daily daily figures of the unit
 * @param cycle rows and start of the cycle
 * @param known prior rate or null; clean reference of the unit
 * @returns growth [m²·K/W, days]; null where the cycle has no figure
 * @range  any
 * @source see `fitGrowth`
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function cycleGrowth(
  daily: DailyColumns,
  cycle: CycleSpan,
  known: { prior: GrowthPrior | null; clean: Exchanger['clean'] },
): Growth | null {
  const rows = figureRows(daily, cycle);
  if (rows.length === 0) return null;
  const systematic = rows.map((row) => daily.foulingResistanceSystematic[row]!);
  return fitGrowth({
    ageDays: rows.map((row) => Math.max(0, daily.day[row]! - cycle.startDay)),
    foulingResistance: rows.map((row) => daily.foulingResistance[row]!),
    uncertainty: rows.map((row, j) => randomPart(daily.foulingResistanceUncertainty[row]!, systematic[j]!)),
    systematicUncertainty: cycleSystematic(daily, rows, known.clean),
    ...(known.prior === null ? {} : { prior: known.prior }),
  });
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

/**
 * Rows of a cycle that have a figure.
 *
 * @param daily daily figures of the unit
 * @param cycle its rows, `from` included, `to` excluded
 * @returns indices into the daily figures, ascending [-]
 * @range  any
 * @source none: selection only
 * @check  tests/core/pipeline/cycle-growth.test.ts
 */
export function figureRows(daily: DailyColumns, { from, to }: Pick<CycleSpan, 'from' | 'to'>): number[] {
  const rows: number[] = [];
  for (let row = from; row < to; row++) if (!Number.isNaN(daily.foulingResistance[row]!)) rows.push(row);
  return rows;
}

function randomPart(combined: number, systematic: number): number {
  return Math.sqrt(Math.max(0, combined * combined - systematic * systematic));
}

/**
 * Prior for a new cycle from the unit's earlier ones: the median over them of their mean rate over the first days that
 * all of them cover, with the spread between them.
 *
 * @param growths growths of earlier cycles, any order
 * @returns rate [m²·K/W per day], its standard uncertainty and the days it is a mean over; null where none is long enough
 *   or none grew
 * @range  cycles of at least 14 figures over 21 days count
 * @source METHODS §9; spread of a new draw s·√(1 + 1/n): JCGM 100:2008 (GUM) 4.2
 * @check  tests/core/pipeline/cycle-growth.test.ts
 */
export function priorFromCycles(growths: readonly (Growth | null)[]): GrowthPrior | null {
  const telling = growths.filter(
    (growth): growth is Growth =>
      growth !== null && growth.count >= FEWEST_PRIOR_FIGURES && growth.spanDays >= SHORTEST_PRIOR_DAYS,
  );
  if (telling.length === 0) return null;
  const overDays = Math.min(...telling.map(({ lastAgeDays }) => lastAgeDays));
  const rates = telling.map(
    (growth) => (smoothFouling(growth, overDays) - smoothFouling(growth, 0)) / overDays,
  );
  const ratePerDay = median(rates);
  if (!(ratePerDay > 0)) return null;
  const spread =
    rates.length === 1
      ? PRIOR_SPREAD_OF_ONE * ratePerDay
      : Math.max(LEAST_PRIOR_SPREAD * ratePerDay, standardDeviation(rates) * Math.sqrt(1 + 1 / rates.length));
  return { ratePerDay, ratePerDayUncertainty: spread, overDays };
}
