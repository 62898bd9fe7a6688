import { rowsWithFigures } from '../cycles/rows-with-figures';
import type { Growth } from '../growth/growth';
import { smoothFouling } from '../growth/smooth-fouling';
import type { DailyColumns } from '../series/daily-columns';
import { median } from '../stats/quantile';
import type { BegunSpan } from './cycle-spans';
import type { Cycle } from './unit-trend';

/** Figures whose median stands for an end of a cycle without a fitted growth [-]. */
const END_FIGURES = 5;
/** Fewest figures that tell how a cycle began and ended [-]. */
export const FEWEST_CYCLE_FIGURES = 3;

/**
 * One cycle as the product tells it: its days, figures, smooth fouling at both ends, growth.
 *
 * @param daily  daily figures of the unit
 * @param span   rows, instants and days of the cycle
 * @param growth its growth, or null where it was not worked out
 * @returns the cycle [m²·K/W, days]; fouling at its ends null with fewer than 3 figures; its growth without the curves that a
 *   projection integrates over
 * @range  any
 * @source METHODS §8
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function describeCycle(daily: DailyColumns, span: BegunSpan, growth: Growth | null): Cycle {
  const rows = rowsWithFigures(daily, span);
  const { start, end, startDay, endDay, began } = span;
  return {
    start,
    end,
    startDay,
    endDay,
    began,
    figures: rows.length,
    ...foulingAtEnds(daily, { rows, startDay, growth }),
    growth: growth === null ? null : withoutCurves(growth),
  };
}

/** They take more room than everything else that is kept of a unit, and nothing is projected from an ended cycle any more. */
function withoutCurves(growth: Growth): Growth {
  return { ...growth, models: growth.models.map((model) => ({ ...model, covariance: [], curves: [] })) };
}

function foulingAtEnds(
  daily: DailyColumns,
  { rows, startDay, growth }: { rows: number[]; startDay: number; growth: Growth | null },
): Pick<Cycle, 'foulingAtStart' | 'foulingAtEnd'> {
  if (rows.length < FEWEST_CYCLE_FIGURES) return { foulingAtStart: null, foulingAtEnd: null };
  if (growth !== null && growth.models.length > 0) {
    const firstAge = Math.max(0, daily.day[rows[0]!]! - startDay);
    return { foulingAtStart: smoothFouling(growth, firstAge), foulingAtEnd: growth.foulingResistance };
  }
  const typical = (part: number[]) => median(part.map((row) => daily.foulingResistance[row]!));
  return {
    foulingAtStart: typical(rows.slice(0, END_FIGURES)),
    foulingAtEnd: typical(rows.slice(-END_FIGURES)),
  };
}
