/** One unit's schedule and what it costs in the measure it was looked for in. */
export type Path = { cost: number; options: number[] };

/** Steps of a unit (row after row, Infinity where closed) and a price on each option on top. */
export type PricedArcs = { width: number; arcs: Float64Array; prices: Float64Array };

/**
 * Cheapest schedule of one unit: the shortest path from the plan's first day through its options to its end. The options are
 * in order of start, so that one sweep finds it.
 *
 * @param priced steps and prices of the unit
 * @returns null where every way is closed
 * @range  any sign of the prices
 * @source Bellman, Quarterly of Applied Mathematics 16 (1958) 87-90, on an acyclic network
 * @check  tests/core/plan/cheapest-path.test.ts
 */
export function cheapestPath({ width, arcs, prices }: PricedArcs): Path | null {
  const last = width - 1;
  // Node r is "after option r − 1", node 0 the beginning.
  const costs = new Float64Array(width + 1).fill(Number.POSITIVE_INFINITY);
  const before = new Int32Array(width + 1);
  costs[0] = 0;
  for (let row = 0; row < width; row++) {
    const reached = costs[row]!;
    if (reached === Number.POSITIVE_INFINITY) continue;
    for (let column = row; column < width; column++) {
      const cost = reached + arcs[row * width + column]! + (column < last ? prices[column]! : 0);
      if (cost < costs[column + 1]!) {
        costs[column + 1] = cost;
        before[column + 1] = row;
      }
    }
  }
  const cost = costs[width]!;
  if (cost === Number.POSITIVE_INFINITY) return null;
  const options: number[] = [];
  for (let node = before[width]!; node > 0; node = before[node]!) options.push(node - 1);
  return { cost, options: options.reverse() };
}

/**
 * Every schedule of one unit that costs at most so much.
 *
 * @param priced steps and prices of the unit
 * @param atMost the cost up to which schedules are wanted
 * @param limit  the most schedules that are given
 * @returns null where there are more
 * @range  any sign of the prices
 * @source depth-first search bounded by the cheapest completion (Land & Doig, Econometrica 28 (1960) 497-520)
 * @check  tests/core/plan/cheapest-path.test.ts
 */
export function pathsWithin(priced: PricedArcs, atMost: number, limit: number): Path[] | null {
  const { width, arcs, prices } = priced;
  const last = width - 1;
  const toGo = cheapestToEnd(priced);
  const found: Path[] = [];
  const chosen: number[] = [];
  const walk = (row: number, cost: number): boolean => {
    for (let column = row; column < width; column++) {
      const step = cost + arcs[row * width + column]! + (column < last ? prices[column]! : 0);
      if (!(step + (column < last ? toGo[column + 1]! : 0) <= atMost)) continue;
      if (column === last) {
        if (found.length === limit) return false;
        found.push({ cost: step, options: [...chosen] });
      } else {
        chosen.push(column);
        const isWithin = walk(column + 1, step);
        chosen.pop();
        if (!isWithin) return false;
      }
    }
    return true;
  };
  return walk(0, 0) ? found : null;
}

function cheapestToEnd({ width, arcs, prices }: PricedArcs): Float64Array {
  const last = width - 1;
  const toGo = new Float64Array(width).fill(Number.POSITIVE_INFINITY);
  for (let row = last; row >= 0; row--) {
    let least = arcs[row * width + last]!;
    for (let column = row; column < last; column++) {
      least = Math.min(least, arcs[row * width + column]! + prices[column]! + toGo[column + 1]!);
    }
    toGo[row] = least;
  }
  return toGo;
}
