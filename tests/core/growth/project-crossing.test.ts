import { describe, expect, it } from 'vitest';
import { fitGrowth } from '@/lib/core/growth/fit-growth';
import { crossedAge, projectCrossing } from '@/lib/core/growth/project-crossing';
import { makeRandom } from '@/lib/core/stats/random';

const LIMIT = 2e-4;

function fitted(days: number, curve: (t: number) => number, seed = 1) {
  const random = makeRandom(seed);
  const ageDays = Float64Array.from({ length: days }, (_, i) => i + 1);
  const foulingResistance = ageDays.map((t) => curve(t) + 0.05 * LIMIT * random.normal());
  return fitGrowth({ ageDays, foulingResistance, uncertainty: ageDays.map(() => 0.05 * LIMIT) });
}

const project = (growth: ReturnType<typeof fitGrowth>, ageToday: number, horizonDays = 365) =>
  projectCrossing({ growth, limit: LIMIT, ageToday, horizonDays });

describe('crossing of a limit', () => {
  it('straight growth gives quantiles around the truth, the later one farther away', () => {
    const { p10, p50, p90, withinHorizon } = project(
      fitted(60, (t) => (LIMIT * t) / 120),
      60,
    );
    expect(p10!).toBeLessThan(125);
    expect(p90!).toBeGreaterThan(115);
    expect(p90! - p50!).toBeGreaterThan(p50! - p10!);
    expect(withinHorizon).toBeGreaterThan(0.9);
  });

  it('an asymptote below the limit, once seen, is not within the horizon', () => {
    for (const seed of [1, 2, 3]) {
      const growth = fitted(160, (t) => 0.7 * LIMIT * -Math.expm1(-t / 40), seed);
      const { p10, p50, p90, withinHorizon } = project(growth, 160, 730);
      expect([p10, p50, p90]).toEqual([null, null, null]);
      expect(withinHorizon).toBeLessThan(0.1);
    }
  });

  it('a clean unit without growth is not within the horizon', () => {
    for (const seed of [1, 2, 3]) {
      const crossing = project(
        fitted(120, () => 0.2 * LIMIT, seed),
        120,
      );
      expect(crossing.p50).toBeNull();
      expect(crossing.withinHorizon).toBeLessThan(0.2);
    }
  });

  it('a limit already passed has its quantiles in the past, and crossedAge among them', () => {
    const growth = fitted(150, (t) => (LIMIT * t) / 120);
    const { p10, p50, p90, withinHorizon } = project(growth, 150);
    const crossed = crossedAge(growth, LIMIT)!;
    expect(withinHorizon).toBeGreaterThan(0.999);
    expect(p10!).toBeGreaterThan(105);
    expect(p90!).toBeLessThan(135);
    expect(crossed).toBeGreaterThan(p10!);
    expect(crossed).toBeLessThan(p90!);
    expect(p50).toBeLessThan(150);
  });

  it('a unit over its limit from the start crossed at age 0', () => {
    const growth = fitted(60, () => 1.5 * LIMIT);
    expect(crossedAge(growth, LIMIT)).toBe(0);
    const { p10, p50, p90, withinHorizon } = project(growth, 60);
    expect([p10, p50, p90]).toEqual([0, 0, 0]);
    expect(withinHorizon).toBeCloseTo(1, 12);
  });

  it('a limit not yet reached has no crossed age', () => {
    expect(
      crossedAge(
        fitted(60, (t) => (LIMIT * t) / 120),
        LIMIT,
      ),
    ).toBeNull();
  });

  it('a shorter horizon cuts quantiles off and lowers the probability', () => {
    const growth = fitted(60, (t) => (LIMIT * t) / 120);
    const long = project(growth, 60);
    const short = project(growth, 60, long.p50! - 60);
    expect(short.p10).toBeCloseTo(long.p10!, 5);
    expect(short.p90).toBeNull();
    expect(short.withinHorizon).toBeCloseTo(0.5, 6);
  });

  it('without figures there is nothing to say', () => {
    const growth = fitted(0, () => 0);
    expect(project(growth, 0)).toEqual({ p10: null, p50: null, p90: null, withinHorizon: 0 });
    expect(crossedAge(growth, LIMIT)).toBeNull();
  });
});
