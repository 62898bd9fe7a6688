import { cheapestPath, type Path, pathsWithin } from './cheapest-path';
import { type Level, pricedArcs } from './lagrangian';
import type { Pace } from './pace';

/** Most schedules given to the closing integer programme, and halvings of the gap tried until they are few enough. */
const MOST_COLUMNS = 12_000;
const MOST_HALVINGS = 12;

/**
 * Every unit's schedules whose reduced cost is within a slack: the whole gap, or as much of it as gives few enough.
 *
 * @param level what is minimised
 * @param duals of the rows, ≤ 0
 * @param reach `whole`: the gap; `pace`: whether to go on
 * @returns schedules of each unit and the slack; null where there are too many, or no time
 * @range  any
 * @source Baldacci, Christofides & Mingozzi, Mathematical Programming 115 (2008) 351-385
 * @check  tests/core/plan/solve-plan.test.ts
 */
export async function columnsWithin(
  level: Level,
  duals: Float64Array,
  { whole, pace }: { whole: number; pace: Pace },
): Promise<{ paths: Path[][]; slack: number; isWhole: boolean } | null> {
  const priced = level.widths.map((_, unit) => pricedArcs(level, unit, duals));
  const least = priced.map((arcs) => cheapestPath(arcs)!.cost);
  let slack = whole;
  for (let halving = 0; halving <= MOST_HALVINGS; halving++) {
    const paths: Path[][] = [];
    let room = MOST_COLUMNS;
    for (let unit = 0; unit < priced.length; unit++) {
      await pace.pause();
      if (!pace.hasTime()) return null;
      const found = pathsWithin(priced[unit]!, least[unit]! + slack, room);
      if (found === null) break;
      room -= found.length;
      paths.push(found);
    }
    if (paths.length === priced.length) return { paths, slack, isWhole: halving === 0 };
    slack /= 2;
  }
  return null;
}
