import { describe, expect, it } from 'vitest';
import { fitGrowth } from '@/lib/core/growth/fit-growth';
import { GROWTH_MODELS } from '@/lib/core/growth/growth';
import { projectCrossing } from '@/lib/core/growth/project-crossing';
import { makeRandom } from '@/lib/core/stats/random';

const LIMIT = 2e-4;

function record(days: number, curve: (t: number) => number, { seed = 1, noise = 0.05 * LIMIT } = {}) {
  const random = makeRandom(seed);
  const ageDays = Float64Array.from({ length: days }, (_, i) => i + 1);
  const foulingResistance = ageDays.map((t) => curve(t) + noise * random.normal());
  return { ageDays, foulingResistance, uncertainty: ageDays.map(() => noise || 1e-9) };
}

const straight = (t: number) => (LIMIT * t) / 120;

describe('growth fitted to the daily figures of one cycle', () => {
  it('without figures there are no models and no answer', () => {
    const growth = fitGrowth(record(0, straight));
    expect(growth).toMatchObject({ models: [], count: 0, spanDays: 0 });
    expect(growth.foulingResistance).toBeNaN();
    expect(growth.ratePerDay).toBeNaN();
    expect(growth.residualDeviation).toBeNaN();
  });

  it('one or two figures give a level, and a rate known no better than that', () => {
    for (const days of [1, 2]) {
      const growth = fitGrowth(record(days, straight));
      expect(growth.models.map((model) => [model.name, model.weight])).toEqual([['none', 1]]);
      expect(growth.ratePerDay).toBe(0);
      expect(growth.ratePerDayUncertainty).toBeGreaterThan(LIMIT / 120);
      expect(growth.models[0]!.covariance).toHaveLength(1);
    }
  });

  it('finds a delay soon after the first figure, however alike the delays before it are', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const late = record(365, (t) => (LIMIT * Math.max(0, t - 37)) / 120, { seed, noise: 0.004 * LIMIT });
      const cut = (column: Float64Array) => column.subarray(31);
      const { models } = fitGrowth({
        ageDays: cut(late.ageDays),
        foulingResistance: cut(late.foulingResistance),
        uncertainty: cut(late.uncertainty),
      });
      const delayed = models.find(({ name }) => name === 'delayed-linear')!;
      expect(Math.abs(delayed.parameters.delay! - 37)).toBeLessThan(1.5);
    }
  });

  it('three to seven figures may give a line, eight all models', () => {
    for (const days of [3, 7]) {
      expect(fitGrowth(record(days, straight)).models.map((model) => model.name)).toEqual(['none', 'linear']);
    }
    expect(fitGrowth(record(8, straight)).models.map((model) => model.name)).toEqual([...GROWTH_MODELS]);
  });

  it('each covariance belongs to the parameters in their order and is positive', () => {
    for (const model of fitGrowth(record(80, straight)).models) {
      const size = Object.keys(model.parameters).length;
      expect(model.covariance).toHaveLength(size);
      model.covariance.forEach((row, i) => {
        expect(row).toHaveLength(size);
        expect(row[i]).toBeGreaterThan(0);
        row.forEach((value, j) => {
          expect(value).toBeCloseTo(model.covariance[j]![i]!, 20);
        });
      });
    }
  });

  it('outlying days, single or three in a row, are as good as missing', () => {
    const outlying = [10, 30, 31, 32, 60, 88];
    const spoilt = record(90, straight);
    for (const i of outlying) spoilt.foulingResistance[i]! += LIMIT;
    const without = (values: Float64Array) => values.filter((_, i) => !outlying.includes(i));
    const { ageDays, foulingResistance, uncertainty } = record(90, straight);
    const one = fitGrowth({
      ageDays: without(ageDays),
      foulingResistance: without(foulingResistance),
      uncertainty: without(uncertainty),
    });
    const other = fitGrowth(spoilt);
    expect(other.count).toBe(one.count);
    expect(Math.abs(other.ratePerDay - one.ratePerDay)).toBeLessThan(0.05 * one.ratePerDayUncertainty);
    expect(Math.abs(other.foulingResistance - one.foulingResistance)).toBeLessThan(
      0.05 * one.foulingResistanceUncertainty,
    );
  });

  it('a falling record has no negative rate', () => {
    const growth = fitGrowth(record(60, (t) => LIMIT - straight(t)));
    expect(growth.ratePerDay).toBeGreaterThanOrEqual(0);
    for (const model of growth.models) {
      const amplitude = Object.values(model.parameters)[1] ?? 0;
      expect(amplitude).toBeGreaterThanOrEqual(0);
    }
    expect(growth.models[0]!.weight).toBeGreaterThan(0.5);
  });

  it('autocorrelated noise widens the uncertainty of the rate', () => {
    const random = makeRandom(3);
    let noise = 0;
    const figures = record(300, straight, { noise: 0 });
    const slow = figures.foulingResistance.map((value) => {
      noise = 0.8 * noise + 0.6 * random.normal();
      return value + 0.05 * LIMIT * noise;
    });
    const uncertainty = figures.uncertainty.map(() => 0.05 * LIMIT);
    const growth = fitGrowth({ ...figures, foulingResistance: slow, uncertainty });
    const white = fitGrowth(record(300, straight));
    expect(growth.autocorrelation).toBeGreaterThan(0.6);
    const error = (of: typeof growth) => Math.sqrt(of.models[1]!.covariance[1]![1]!);
    expect(error(growth) / error(white)).toBeGreaterThan(1.7);
  });

  it('a systematic uncertainty widens the level and not the slope', () => {
    const figures = record(90, straight);
    const one = fitGrowth(figures);
    const other = fitGrowth({ ...figures, systematicUncertainty: 0.1 * LIMIT });
    expect(other.foulingResistanceUncertainty).toBeCloseTo(
      Math.hypot(one.foulingResistanceUncertainty, 0.1 * LIMIT),
      12,
    );
    expect(other.ratePerDayUncertainty).toBeCloseTo(one.ratePerDayUncertainty, 20);
  });

  it('a prior rate informs a young cycle and is overruled by an old one', () => {
    const prior = { ratePerDay: LIMIT / 240, ratePerDayUncertainty: LIMIT / 1200 };
    const young = fitGrowth({ ...record(3, straight), prior });
    expect(young.models.map((model) => model.name)).toEqual(['linear']);
    expect(Math.abs(young.ratePerDay - prior.ratePerDay)).toBeLessThan(2 * young.ratePerDayUncertainty);
    const crossing = projectCrossing({ growth: young, limit: LIMIT, ageToday: 3, horizonDays: 730 });
    expect(crossing.p50).not.toBeNull();
    const old = fitGrowth({ ...record(110, straight), prior: { ...prior, overDays: 60 } });
    expect(Math.abs(old.ratePerDay / (LIMIT / 120) - 1)).toBeLessThan(0.15);
    expect(fitGrowth({ ...record(0, straight), prior }).models).toEqual([]);
    expect(fitGrowth({ ...record(1, straight), prior }).models).toHaveLength(1);
  });

  it('a prior without uncertainty is a mistake of the program', () => {
    const prior = { ratePerDay: 1e-6, ratePerDayUncertainty: 0 };
    expect(() => fitGrowth({ ...record(5, straight), prior })).toThrow(RangeError);
  });

  it('every number is finite for constant, noise-free and gappy records', () => {
    const gappy = {
      ageDays: [0, 1, 2, 90, 91, 200, 201, 202, 400],
      foulingResistance: [0, 1, 0, 5, 5, 9, 9, 9, 20],
    };
    const constant = record(30, () => 5e-5, { noise: 0 });
    const exact = record(30, straight, { noise: 0 });
    for (const figures of [{ ...gappy, uncertainty: gappy.ageDays.map(() => 1) }, constant, exact]) {
      const growth = fitGrowth(figures);
      expect(JSON.stringify(growth)).not.toContain('null');
      expect(growth.models.reduce((sum, model) => sum + model.weight, 0)).toBeCloseTo(1, 12);
    }
  });
});
