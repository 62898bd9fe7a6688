import { describe, expect, it } from 'vitest';
import type { FittedModel, GrowthCurve } from '@/lib/core/growth/growth';
import {
  EQUAL_VOTES,
  evaluateAlong,
  evaluateMixture,
  FUTURE_GROWTH_DEVIATION,
  mixtureOf,
  PROJECTION_VOTES,
} from '@/lib/core/growth/mixture';
import { mixtureQuantile, shareAbove } from '@/lib/core/growth/normal-mixture';
import { normalCdf, normalQuantile } from '@/lib/core/stats/normal';

const curve = (changes: Partial<GrowthCurve> = {}): GrowthCurve => ({
  shape: 0,
  weight: 1,
  r0: 1,
  amplitude: 2,
  r0Variance: 0.04,
  amplitudeVariance: 0.01,
  covariance: -0.005,
  ...changes,
});
const model = (name: FittedModel['name'], weight: number, of: GrowthCurve): FittedModel => ({
  name,
  parameters: {},
  covariance: [],
  weight,
  aicc: 0,
  curves: [of],
});
const alone = (of: GrowthCurve) =>
  mixtureOf({ models: [model('linear', 1, of)], lastAgeDays: 10 }, EQUAL_VOTES);

describe('mixture of growth curves', () => {
  it('has its quantiles where that share lies below, however few or many curves and wherever one looks first', () => {
    for (const of of [
      curve(),
      curve({ amplitude: 0.01 }),
      curve({ amplitude: -2 }),
      curve({ amplitude: 30 }),
    ]) {
      const mixture = evaluateMixture(alone(of), 25);
      for (const probability of [0.1, 0.5, 0.9]) {
        const found = mixtureQuantile(mixture, probability);
        expect(1 - shareAbove(mixture, found)).toBeCloseTo(probability, 11);
        for (const near of [found - 0.3, found, found + 1e9, Number.NaN])
          expect(Math.abs(mixtureQuantile(mixture, probability, near) / found - 1)).toBeLessThan(1e-9);
      }
    }
  });

  it('up to the last figure one curve is a normal distribution with the variance of a linear function', () => {
    const mixture = evaluateMixture(alone(curve()), 3);
    const deviation = Math.sqrt(0.04 - 2 * 3 * 0.005 + 9 * 0.01);
    expect(mixture.means[0]).toBe(7);
    expect(mixture.deviations[0]).toBeCloseTo(deviation, 14);
    expect(shareAbove(mixture, 7.2)).toBeCloseTo(normalCdf(-0.2 / deviation), 14);
    expect(mixtureQuantile(mixture, 0.9)).toBeCloseTo(7 + 1.2815515655446004 * deviation, 6);
  });

  it('beyond it the growth since is uncertain by a share of itself', () => {
    const exact = curve({ r0Variance: 0, amplitudeVariance: 0, covariance: 0 });
    const mixture = evaluateMixture(alone(exact), 15);
    expect(mixture.deviations[0]).toBeCloseTo(FUTURE_GROWTH_DEVIATION * 2 * 5, 14);
    expect(mixtureQuantile(evaluateMixture(alone(exact), 5), 0.5)).toBe(11);
  });

  it('at many ages it is what it is at each of them', () => {
    const models = [
      model('asymptotic', 0.5, curve({ shape: 20 })),
      model('falling-rate', 0.5, curve({ shape: 0.4 })),
    ];
    const mixture = () => mixtureOf({ models, lastAgeDays: 10 }, EQUAL_VOTES);
    const ages = Float64Array.of(0, 1, 8.5, 15, 400);
    const evaluate = evaluateAlong(mixture(), ages);
    ages.forEach((age, i) => {
      const one = evaluateMixture(mixture(), age);
      const { means, deviations } = evaluate(i);
      for (const c of one.weights.keys()) {
        expect(means[c]! / one.means[c]!).toBeCloseTo(1, 13);
        expect(deviations[c]! / one.deviations[c]!).toBeCloseTo(1, 13);
      }
    });
  });

  it('an amplitude that may be negative is cut off at 0: mean of the half-normal distribution', () => {
    const mixture = evaluateMixture(alone(curve({ amplitude: 0, r0Variance: 0, covariance: 0 })), 10);
    const { weights } = mixture;
    expect(weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 12);
    const mean = weights.reduce((sum, weight, i) => sum + weight * mixture.amplitudes[i]!, 0);
    expect(mean).toBeCloseTo(0.1 * Math.sqrt(2 / Math.PI), 3);
    expect(shareAbove(mixture, 0.999)).toBeCloseTo(1, 2);
  });

  it('and elsewhere it is the normal distribution above 0 (its quantile function, closed form)', () => {
    const deviation = 0.1;
    for (const multiple of [-3, -1.5, -0.5, 0, 0.5, 1, 2, 3, 3.9]) {
      const amplitude = multiple * deviation;
      const mixture = evaluateMixture(alone(curve({ r0: 0, r0Variance: 0, covariance: 0, amplitude })), 10);
      const below = normalCdf(-multiple);
      for (const probability of [0.1, 0.5, 0.9]) {
        const truth = 10 * (amplitude + deviation * normalQuantile(below + probability * (1 - below)));
        expect(Math.abs(mixtureQuantile(mixture, probability) - truth)).toBeLessThan((10 * deviation) / 30);
        expect(Math.abs(1 - shareAbove(mixture, truth) - probability)).toBeLessThan(1 / 40);
      }
    }
  });

  it('far below 0 what is left is just above it', () => {
    const mixture = alone(curve({ amplitude: -2 }));
    expect(
      Math.max(...mixture.amplitudes.map((amplitude, i) => amplitude * mixture.weights[i]!)),
    ).toBeLessThan(0.02);
  });

  it('in a projection the asymptotic model has two votes', () => {
    const asymptotic = curve({ shape: 20 });
    const models = [model('linear', 0.5, curve()), model('asymptotic', 0.5, asymptotic)];
    const weights = (votes: typeof EQUAL_VOTES) => [...mixtureOf({ models, lastAgeDays: 10 }, votes).weights];
    expect(weights(EQUAL_VOTES)).toEqual([0.5, 0.5]);
    expect(weights(PROJECTION_VOTES)[1]).toBeCloseTo(2 / 3, 14);
  });

  it('models of no weight are left out', () => {
    const models = [model('linear', 1, curve()), model('none', 1e-6, curve({ amplitude: 0 }))];
    expect(mixtureOf({ models, lastAgeDays: 10 }, EQUAL_VOTES).weights).toHaveLength(1);
  });
});
