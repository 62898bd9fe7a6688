import { describe, expect, it } from 'vitest';
import { fitGrowth } from '@/lib/core/growth/fit-growth';
import type { Growth } from '@/lib/core/growth/growth';
import { evaluateMixture, projectionOf } from '@/lib/core/growth/mixture';
import { projectBand } from '@/lib/core/growth/project-band';
import { projectCrossing } from '@/lib/core/growth/project-crossing';
import { projectionAlong } from '@/lib/core/growth/project-expectation';
import { makeRandom } from '@/lib/core/stats/random';

/** Few and noisy figures: a wide and lopsided projection. */
function fitted(days: number, widening: number): Growth {
  const random = makeRandom(5);
  const ageDays = Float64Array.from({ length: days }, (_, i) => i + 1);
  const foulingResistance = ageDays.map((t) => 1e-6 * t + 1e-5 * random.normal());
  const growth = fitGrowth({ ageDays, foulingResistance, uncertainty: ageDays.map(() => 1e-5) });
  return { ...growth, widening };
}

/** Lost share of the duty that a counter-current unit with Cr = 0 and NTU 2 clean has at a fouling. */
const lostShare = (fouling: number) => Math.exp(-2 / (1 + 2000 * Math.max(fouling, -2e-4))) - Math.exp(-2);

/** Distribution function of the normal distribution: Abramowitz & Stegun, 26.2.17 (to 7.5e-8). */
function normalBelow(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const above = (series * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
  return z > 0 ? 1 - above : above;
}

/** Median of normal curves, by halving. */
function medianOf(curves: readonly { mean: number; deviation: number; weight: number }[]): number {
  let low = Math.min(...curves.map(({ mean }) => mean));
  let high = Math.max(...curves.map(({ mean }) => mean));
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    const below = curves.reduce(
      (sum, { mean, deviation, weight }) => sum + weight * normalBelow((middle - mean) / deviation),
      0,
    );
    if (below < 0.5) low = middle;
    else high = middle;
  }
  return low;
}

/** Expected value by brute force: every normal curve of the mixture summed on a grid of its own. */
function bruteForce(growth: Growth, age: number, of: (fouling: number) => number): number {
  const { weights, means, deviations } = evaluateMixture(projectionOf(growth), age);
  const half = 60;
  const points = [...weights].flatMap((weight, c) =>
    Array.from({ length: 2 * half + 1 }, (_, i) => {
      const z = (7 * (i - half)) / half;
      return {
        fouling: means[c]! + z * deviations[c]!,
        weight: (weight * Math.exp((-z * z) / 2) * (7 / half)) / Math.sqrt(2 * Math.PI),
      };
    }),
  );
  const middle = medianOf(
    [...weights].map((weight, c) => ({ weight, mean: means[c]!, deviation: deviations[c]! })),
  );
  const widened = (x: number) => middle + growth.widening * (x - middle);
  return points.reduce((sum, { fouling, weight }) => sum + weight * of(widened(fouling)), 0);
}

function expectedOf(growth: Growth, ages: readonly number[], of: (fouling: number) => number): number[] {
  const { foulingAt, weights } = projectionAlong(growth, ages);
  return ages.map((_, i) => foulingAt(i).reduce((sum, value, k) => sum + weights[k]! * of(value), 0));
}

describe('expected values over a projection', () => {
  const cases = [
    [12, 1],
    [12, 1.6],
    [60, 1],
    [60, 1.6],
  ] as const;

  it.each(cases)('%i figures, widening %f: are those of every curve summed', (days, widening) => {
    const growth = fitted(days, widening);
    const ages = [days, days + 30, days + 120, days + 600];
    const means = expectedOf(growth, ages, (fouling) => fouling);
    const losses = expectedOf(growth, ages, lostShare);
    ages.forEach((age, i) => {
      expect(Math.abs(means[i]! / bruteForce(growth, age, (x) => x) - 1)).toBeLessThan(2e-3);
      expect(Math.abs(losses[i]! / bruteForce(growth, age, lostShare) - 1)).toBeLessThan(5e-3);
    });
  });

  it('are nearer to it than the 30-40-30 rule on P10, P50 and P90 (Hurst, Brown & Swanson, AAPG Bull. 84, 2000)', () => {
    const growth = fitted(12, 1);
    const ages = [30, 60, 120, 240];
    const losses = expectedOf(growth, ages, lostShare);
    const { p10, p50, p90 } = projectBand({ growth, ages });
    ages.forEach((age, i) => {
      const truth = bruteForce(growth, age, lostShare);
      const byRule = 0.3 * lostShare(p10[i]!) + 0.4 * lostShare(p50[i]!) + 0.3 * lostShare(p90[i]!);
      expect(Math.abs(losses[i]! / truth - 1)).toBeLessThan(Math.max(1e-3, Math.abs(byRule / truth - 1)));
    });
  });
});

describe('probability that a level is reached', () => {
  it('is that of the crossing at the same age', () => {
    const ages = [60, 100, 200];
    const levels = [1e-4, 1.5e-4];
    for (const widening of [1, 1.6]) {
      const growth = fitted(60, widening);
      const { reachedAt } = projectionAlong(growth, ages);
      levels.forEach((limit) => {
        ages.forEach((age, i) => {
          const crossing = projectCrossing({ growth, limit, ageToday: age, horizonDays: 0 });
          expect(reachedAt(i, limit)).toBeCloseTo(crossing.withinHorizon, 9);
        });
      });
    }
  });
});
