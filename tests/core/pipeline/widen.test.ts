import { describe, expect, it } from 'vitest';
import { sortedScores, widen as widenBy } from '@/lib/core/pipeline/widen';
import { makeRandom } from '@/lib/core/stats/random';

const scores = (...values: number[]) => values;
/** By a fleet that has not heard of the unit yet. */
const widen = (own: number[], others: number[]) => widenBy(own, { scores: sortedScores([others, own]), own });
/** Scores of a normal prediction whose stated deviation is the true one over `narrowness`. */
function normalScores(count: number, narrowness: number, seed: number) {
  const random = makeRandom(seed);
  return Array.from({ length: count }, () => (narrowness * Math.abs(random.normal())) / 1.2815515655);
}

describe('widening by the record of past projections', () => {
  it('is none below 20 past projections of the fleet', () => {
    expect(widen([], normalScores(19, 3, 1))).toEqual({ factor: 1, from: 'none', count: 19 });
  });

  it('is the score that four of five do not exceed, counted conformally: 17th of 20, 25th of 30', () => {
    const ascending = (count: number) => scores(...Array.from({ length: count }, (_, i) => 1 + i / 10));
    expect(widen([], ascending(20)).factor).toBeCloseTo(1 + 16 / 10, 12);
    expect(widen([], ascending(30)).factor).toBeCloseTo(1 + 24 / 10, 12);
  });

  it('never narrows', () => {
    expect(widen([], normalScores(500, 0.3, 2))).toEqual({ factor: 1, from: 'fleet', count: 500 });
  });

  it('makes bands that were too narrow by half hold four of five of what comes next', () => {
    const { factor } = widen([], normalScores(600, 2, 3));
    const next = normalScores(4000, 2, 4);
    const held = next.filter((score) => score <= factor).length / next.length;
    // Conformal: 0.8 on average; one record of 600 moves it by 0.016 (one standard deviation).
    expect(held).toBeGreaterThan(0.75);
    expect(held).toBeLessThan(0.85);
  });

  it('takes a unit’s own record where so few held is rare by chance: 4 of 9, not 5 of 9', () => {
    const record = (held: number) => scores(...Array.from({ length: 9 }, (_, i) => (i < held ? 0.5 : 2.5)));
    // Binomial, 0.8: at most 4 of 9 with probability 0.0196, at most 5 of 9 with 0.0856.
    expect(widen(record(4), normalScores(100, 1, 5))).toEqual({ factor: 2.5, from: 'unit', count: 9 });
    expect(widen(record(5), normalScores(100, 1, 5)).from).toBe('fleet');
    expect(widen(record(4).slice(1), normalScores(100, 1, 5)).from).toBe('fleet');
  });

  it('takes what the unit knows of itself now in place of what the fleet heard of it', () => {
    const others = normalScores(40, 2, 6);
    const [heard, now] = [normalScores(6, 2, 7), normalScores(7, 3, 8)];
    const fleet = { scores: sortedScores([others.slice(0, 20), heard, others.slice(20)]), own: heard };
    expect(widenBy(now, fleet)).toEqual(widen(now, others));
    expect(widenBy(heard, fleet)).toEqual(widen(heard, others));
  });
});
