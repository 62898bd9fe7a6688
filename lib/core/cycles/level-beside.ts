import type { DailyColumns } from '../series/daily-columns';
import { effectiveCount } from '../stats/autocorrelation';
import { median } from '../stats/quantile';
import { rowsWithFigures } from './rows-with-figures';
import type { CycleSpan } from './split-cycles';
import { stepNoise } from './step-noise';

/** Figures whose median stands for the level next to a cleaning, and the fewest that do [-]. */
const FIGURES_BESIDE = 5;
const FEWEST_FIGURES_BESIDE = 3;
/** Figures further from the cleaning than this say nothing of the level next to it [days] (own choice). */
const LONGEST_BESIDE_DAYS = 45;
/** Variance of a median over that of a mean, for normal noise [-]. */
const MEDIAN_VARIANCE = Math.PI / 2;

/** Smooth fouling with its random standard uncertainty, without the systematic part [m²·K/W]. */
export type SmoothLevel = { value: number; uncertainty: number };

/** Level next to a cleaning: the smooth one, the systematic part common to all figures, and the days it is of. */
export type LevelBeside = SmoothLevel & {
  /** [m²·K/W] */
  systematic: number;
  /** Rows of the daily figures next to the cleaning, up to five. */
  rows: number[];
};

/**
 * Level of fouling next to a cleaning, from up to five figures of the cycle on one side of it: the smooth one if given, else
 * their median. With growth the median before is a little low and the one after a little high, so that what a cleaning
 * recovered is rather understated.
 *
 * @param daily daily figures of the unit
 * @param cycle rows of the cycle on that side
 * @param at    local day of the cleaning, its side, and the smooth level there [m²·K/W] or null
 * @returns level with its random standard uncertainty, systematic part [m²·K/W], rows; null with fewer than 3 figures
 *   within 45 days
 * @range  any
 * @source variance of a median π/2·σ²/n: Kendall & Stuart, The Advanced Theory of Statistics, vol. 2; n of correlated figures:
 *   Bayley & Hammersley, Suppl. J. R. Stat. Soc. 8 (1946) 184-197
 * @check  tests/core/cycles/cleaning-result.test.ts
 */
export function levelBeside(
  daily: DailyColumns,
  cycle: Pick<CycleSpan, 'from' | 'to'>,
  at: { localDay: number; side: 'before' | 'after'; smooth: SmoothLevel | null },
): LevelBeside | null {
  const all = rowsWithFigures(daily, cycle);
  const near = all.filter((row) => Math.abs(daily.day[row]! - at.localDay) <= LONGEST_BESIDE_DAYS);
  const rows = at.side === 'before' ? near.slice(-FIGURES_BESIDE) : near.slice(0, FIGURES_BESIDE);
  if (rows.length < FEWEST_FIGURES_BESIDE) return null;
  return {
    ...(at.smooth ?? medianLevel(daily, all, rows)),
    systematic: median(rows.map((row) => daily.foulingResistanceSystematic[row]!)),
    rows,
  };
}

/** The median of a few figures; the scatter that makes it uncertain is judged from all of the cycle. */
function medianLevel(daily: DailyColumns, all: number[], rows: number[]): SmoothLevel {
  const foulingOf = (row: number) => daily.foulingResistance[row]!;
  const noise = stepNoise(
    all.map((row) => daily.day[row]!),
    all.map(foulingOf),
  );
  const stated = median(rows.map((row) => randomPart(daily, row)));
  const independent = Math.max(1, effectiveCount(rows.length, noise.autocorrelation));
  const deviation = Math.max(noise.deviation, Number.isNaN(stated) ? 0 : stated);
  return {
    value: median(rows.map(foulingOf)),
    uncertainty: deviation * Math.sqrt(MEDIAN_VARIANCE / independent),
  };
}

function randomPart(daily: DailyColumns, row: number): number {
  const combined = daily.foulingResistanceUncertainty[row]!;
  const systematic = daily.foulingResistanceSystematic[row]!;
  return Math.sqrt(Math.max(0, combined * combined - systematic * systematic));
}
