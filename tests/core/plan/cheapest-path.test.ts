import { describe, expect, it } from 'vitest';
import { cheapestPath, pathsWithin } from '../../../lib/core/plan/cheapest-path';
import { makeRandom } from '../../../lib/core/stats/random';

/** Every subset of the options with its cost, cheapest first. */
function allPaths(width: number, arcs: Float64Array, prices: Float64Array) {
  const all = Array.from({ length: 2 ** (width - 1) }, (_, mask) => {
    const options = Array.from(prices.keys()).filter((option) => (mask >> option) & 1);
    const nodes = [-1, ...options, width - 1];
    const steps = nodes.slice(1).map((to, i) => arcs[(nodes[i]! + 1) * width + to]! + (prices[to] ?? 0));
    return { options, cost: steps.reduce((sum, step) => sum + step, 0) };
  });
  return all.filter(({ cost }) => cost < Number.POSITIVE_INFINITY).sort((a, b) => a.cost - b.cost);
}

describe('schedules of one unit', () => {
  it('are the cheapest, and all within a cost, of every subset of the options', () => {
    const random = makeRandom(7);
    for (let round = 0; round < 200; round++) {
      const width = 1 + Math.floor(7 * random.uniform());
      const arcs = Float64Array.from({ length: width * width }, () =>
        random.uniform() < 0.2 ? Number.POSITIVE_INFINITY : 10 * random.uniform() - 2,
      );
      const prices = Float64Array.from({ length: width - 1 }, () => 5 * random.uniform());
      const all = allPaths(width, arcs, prices);
      const cheapest = cheapestPath({ width, arcs, prices });
      expect(cheapest?.options ?? null).toEqual(all[0]?.options ?? null);
      if (all.length === 0) continue;
      expect(cheapest!.cost).toBeCloseTo(all[0]!.cost, 9);
      const atMost = all[Math.floor(all.length / 2)]!.cost + 1e-9;
      const within = pathsWithin({ width, arcs, prices }, atMost, 1000)!;
      const expected = all.filter(({ cost }) => cost <= atMost);
      expect(within.map(({ options }) => options.join()).sort()).toEqual(
        expected.map(({ options }) => options.join()).sort(),
      );
      expect(pathsWithin({ width, arcs, prices }, atMost, expected.length - 1)).toBeNull();
    }
  });
});
