import { describe, expect, it } from 'vitest';
import { leastSquares } from '@/lib/core/fit/least-squares';
import { fitCurve, whitenFigures } from '@/lib/core/growth/curve-fit';
import { dailyFigures } from '@/lib/core/growth/daily-figures';
import { makeRandom } from '@/lib/core/stats/random';
import { weightedLine } from '@/lib/core/stats/weighted-line';

const random = makeRandom(5);
const ageDays = Float64Array.from({ length: 40 }, (_, i) => 2 * i + 1);
const figures = dailyFigures({
  ageDays,
  foulingResistance: ageDays.map((t) => 1e-5 + 1e-6 * t + 2e-6 * random.normal()),
  uncertainty: ageDays.map(() => 2e-6),
});

describe('least squares of one growth curve', () => {
  it('equals the weighted straight line where the noise is not autocorrelated', () => {
    const fit = fitCurve(whitenFigures(figures, 0, null), 'linear', 0);
    const line = weightedLine(
      figures.t,
      figures.y,
      figures.deviation.map((value) => value ** -2),
    );
    expect(fit.r0 / line.intercept).toBeCloseTo(1, 10);
    expect(fit.amplitude / line.slope).toBeCloseTo(1, 10);
    const unit = line.residualVariance;
    expect((fit.amplitudeVariance * unit) / line.slopeError ** 2).toBeCloseTo(1, 9);
    expect((fit.r0Variance * unit) / line.interceptError ** 2).toBeCloseTo(1, 9);
    expect((fit.covariance * unit) / line.covariance).toBeCloseTo(1, 9);
    expect(fit.residualSumOfSquares / (unit * (figures.t.length - 2))).toBeCloseTo(1, 9);
  });

  it('equals least squares of whitened columns where it is', () => {
    const white = whitenFigures(figures, 0.8, null);
    const fit = fitCurve(white, 'falling-rate', 0.5);
    const form = whitenFigures({ ...figures, y: figures.t.map(Math.sqrt) }, 0.8, null).target;
    const direct = leastSquares([white.ones, form], white.target);
    expect(fit.r0 / direct.parameters[0]!).toBeCloseTo(1, 9);
    expect(fit.amplitude / direct.parameters[1]!).toBeCloseTo(1, 9);
    expect(fit.residualSumOfSquares / direct.residualSumOfSquares).toBeCloseTo(1, 9);
  });

  it('a falling curve counts as level, its least-squares amplitude is kept', () => {
    const falling = { ...figures, y: figures.y.map((value) => -value) };
    const white = whitenFigures(falling, 0, null);
    const fit = fitCurve(white, 'linear', 0);
    expect(fit.amplitude).toBeLessThan(0);
    expect(fit.residualSumOfSquares).toBeCloseTo(fitCurve(white, 'none', 0).residualSumOfSquares, 9);
  });

  it('a prior pulls the rate by its precision', () => {
    const rate = (uncertainty: number) => {
      const prior = { ratePerDay: 2e-6, ratePerDayUncertainty: uncertainty, overDays: 90 };
      return fitCurve(whitenFigures(figures, 0, prior), 'linear', 0);
    };
    const free = fitCurve(whitenFigures(figures, 0, null), 'linear', 0);
    expect(rate(1e-12).amplitude / 2e-6).toBeCloseTo(1, 6);
    expect(rate(1).amplitude / free.amplitude).toBeCloseTo(1, 6);
    const u = Math.sqrt(free.amplitudeVariance);
    expect(rate(u).amplitude / ((free.amplitude + 2e-6) / 2)).toBeCloseTo(1, 9);
  });

  it('one figure does not determine a slope', () => {
    const one = dailyFigures({ ageDays: [3], foulingResistance: [1e-5], uncertainty: [1e-6] });
    const fit = fitCurve(whitenFigures(one, 0.3, null), 'linear', 0);
    expect(fit).toMatchObject({ amplitude: 0, amplitudeVariance: 0 });
    expect(fit.r0).toBeCloseTo(1e-5, 15);
  });
});
