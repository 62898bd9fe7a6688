import { describe, expect, it } from 'vitest';
import { autoregressiveFit } from '@/lib/core/fit/autoregressive';
import { huberFit, huberLine } from '@/lib/core/fit/huber';
import { leastSquares } from '@/lib/core/fit/least-squares';
import { aicc, akaikeWeights } from '@/lib/core/stats/akaike';
import { effectiveCount, lagOneAutocorrelation } from '@/lib/core/stats/autocorrelation';
import { hampelSpikes } from '@/lib/core/stats/hampel';
import { exactUpperTail, mannKendall, tieGroups } from '@/lib/core/stats/mann-kendall';
import { median } from '@/lib/core/stats/quantile';
import {
  mean,
  medianAbsoluteDeviation,
  NORMAL_CONSISTENCY,
  standardDeviation,
} from '@/lib/core/stats/spread';
import { theilSen } from '@/lib/core/stats/theil-sen';
import { weightedLine } from '@/lib/core/stats/weighted-line';
import data from './data/trend-statistics.json';

/** The reference file's own: 1e-8 relative unless a case says otherwise. */
const RELATIVE = 1e-8;

type Case = Record<string, never> & { id: string; y: number[] };
const cases = data.cases as unknown as Case[];
// biome-ignore lint/suspicious/noExplicitAny: each case has its own keys
const find = (id: string): any => cases.find((one) => one.id === id);

/** Within the relative tolerance, or within half a unit of the last digit printed where fewer digits are. */
function close(value: number, expected: number, relative = RELATIVE) {
  const [digits, exponent] = String(expected).split('e');
  const decimals = (digits!.split('.')[1] ?? '').length - Number(exponent ?? 0);
  const halfDigit = Number.isInteger(expected) ? 0 : 0.5000001 * 10 ** -decimals;
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(Math.max(relative * Math.abs(expected), halfDigit));
}

const counted = (length: number, first = 0) => Array.from({ length }, (_, i) => first + i);

describe('Theil–Sen slope', () => {
  it('equals the worked example of Sen 1968, interval to its printed digits', () => {
    const one = find('theil-sen-sen1968');
    const line = theilSen(one.t, one.y, one.confidence);
    close(line.slope, one.slope);
    close(line.intercept, one.intercept_median_y_minus_slope_median_t);
    close(
      median(one.y.map((y: number, i: number) => y - line.slope * one.t[i])),
      one.intercept_median_of_residuals,
    );
    expect(Math.abs(line.low - one.slope_low)).toBeLessThanOrEqual(one.tolerance);
    expect(Math.abs(line.high - one.slope_high)).toBeLessThanOrEqual(one.tolerance);
  });

  for (const id of ['mann-kendall-nile', 'mann-kendall-nhtemp']) {
    it(`${id}: slope, intercept and 95 % interval`, () => {
      const one = find(id);
      const line = theilSen(counted(one.y.length), one.y);
      close(line.slope, one.slope);
      close(line.intercept, one.intercept);
      close(line.low, one.slope_low95);
      close(line.high, one.slope_high95);
    });
  }

  it('ignores a fifth of wild values that pull least squares away (Belgian telephone calls)', () => {
    const one = find('huber-phones');
    const line = theilSen(one.x, one.y);
    close(line.slope, one.theil_sen.slope);
    close(line.intercept, one.theil_sen.intercept);
  });
});

describe('Mann–Kendall test', () => {
  const ids = ['nile', 'nhtemp', 'constant', 'two-values', 'single-step'].map(
    (name) => `mann-kendall-${name}`,
  );
  for (const id of ids) {
    it(`${id}: S, variance with ties, z and probability`, () => {
      const one = find(id);
      const test = mannKendall(one.y);
      expect(test.s).toBe(one.S);
      close(test.variance, one.variance_of_S);
      close(test.z, one.Z);
      close(test.probability, one.p_two_sided);
      if (one.tie_groups) expect(tieGroups(one.y)).toEqual(one.tie_groups);
      if (one.slope !== undefined) close(theilSen(counted(one.y.length), one.y).slope, one.slope);
    });
  }

  it('is exact for ten values without ties', () => {
    const one = find('mann-kendall-exact-10');
    const test = mannKendall(one.y);
    expect(test.s).toBe(one.S);
    close(test.variance, one.variance_of_S);
    close(test.z, one.Z);
    close(test.probability, one.p_two_sided_normal);
    close(test.exactProbability!, one.p_two_sided_exact);
  });

  it('equals the printed table of exact upper tails (Gilbert 1987, table A18) to its five digits', () => {
    for (const { n, P_S_at_least } of find('mann-kendall-exact-table').table) {
      for (const [s, probability] of P_S_at_least) close(exactUpperTail(n, s), probability);
    }
  });
});

describe('autocorrelation', () => {
  for (const id of ['autocorrelation-mavro', 'autocorrelation-lew']) {
    it(`${id}: certified mean, deviation and lag-1 value`, () => {
      const one = find(id);
      close(mean(one.y), one.mean, 1e-14);
      close(standardDeviation(one.y), one.standard_deviation, 1e-11);
      close(lagOneAutocorrelation(one.y), one.lag1, 1e-11);
      close(effectiveCount(one.y.length, lagOneAutocorrelation(one.y)), one.n_eff);
    });
  }

  it('Lake Huron: ordinary trend, and the trend with AR(1) noise whose error is 2.6 times larger', () => {
    const one = find('trend-with-autocorrelated-noise-lakehuron');
    const t = counted(one.y.length, one.t_first);
    const ones = t.map(() => 1);
    const ordinary = leastSquares([ones, t], one.y);
    close(ordinary.parameters[0]!, one.ordinary.intercept, 1e-10);
    close(ordinary.parameters[1]!, one.ordinary.slope, 1e-10);
    close(ordinary.standardErrors[1]!, one.ordinary.slope_se, 1e-10);
    const residuals = one.y.map(
      (y: number, i: number) => y - ordinary.parameters[0]! - ordinary.parameters[1]! * t[i]!,
    );
    close(lagOneAutocorrelation(residuals), one.ordinary.residual_lag1);

    const fit = autoregressiveFit(t, [ones, t], one.y);
    const gls = one.ar1_gls_ml;
    const arima = one.ar1_exact_likelihood;
    close(fit.phi, gls.phi, 2e-3);
    close(fit.parameters[0]!, gls.intercept, 2e-3);
    close(fit.parameters[1]!, gls.slope, 2e-3);
    close(fit.standardErrors[1]!, gls.slope_se, 2e-3);
    close(fit.phi, arima.phi, 2e-3);
    close(fit.parameters[1]!, arima.slope, 2e-3);
    expect(fit.logLikelihood).toBeCloseTo(arima.log_likelihood, 2);
  });
});

describe('Huber M-estimate', () => {
  it('stack loss: coefficients, scale and weights', () => {
    const one = find('huber-stackloss');
    const fit = huberFit([one.y.map(() => 1), one.x1, one.x2, one.x3], one.y);
    fit.parameters.forEach((value, i) => {
      expect(Math.abs(value - one.coefficients_converged[i])).toBeLessThanOrEqual(1e-5);
    });
    expect(Math.abs(fit.scale - one.scale_converged)).toBeLessThanOrEqual(1e-5);
    const below = Object.fromEntries(
      Array.from(fit.weights).flatMap((weight, i) => (weight < 1 ? [[String(i + 1), weight]] : [])),
    );
    expect(Object.keys(below)).toEqual(Object.keys(one.weights_below_one));
    for (const [label, weight] of Object.entries(below)) {
      expect(Math.abs(Number(weight) - one.weights_below_one[label])).toBeLessThanOrEqual(1e-5);
    }
  });

  it('telephone calls: line and scale', () => {
    const one = find('huber-phones');
    const line = huberLine(one.x, one.y);
    close(line.intercept, one.converged.intercept);
    close(line.slope, one.converged.slope);
    close(line.scale, one.converged.scale);
    expect(line.slope).toBeCloseTo(one.printed.slope, 2);
    const ordinary = weightedLine(one.x, one.y);
    close(ordinary.intercept, one.least_squares.intercept);
    close(ordinary.slope, one.least_squares.slope);
  });
});

describe('weighted straight line', () => {
  it('equals the reference to its printed digits, by both routes', () => {
    const one = find('weighted-least-squares');
    const line = weightedLine(one.x, one.y, one.weights);
    close(line.intercept, one.intercept);
    close(line.slope, one.slope);
    close(line.interceptError, one.intercept_se);
    close(line.slopeError, one.slope_se);
    close(line.residualVariance, one.residual_variance);
    const fit = leastSquares([one.x.map(() => 1), one.x], one.y, one.weights);
    close(fit.standardErrors[0]!, one.intercept_se);
    close(fit.covariance[0]![1]!, line.covariance);
  });
});

describe('Hampel identifier', () => {
  for (const one of cases.filter((each) => each.id.startsWith('hampel-')).map((each) => find(each.id))) {
    it(`${one.id}`, () => {
      const spikes = hampelSpikes(one.y, one.k);
      expect(Array.from(spikes).flatMap((flag, i) => (flag ? [i] : []))).toEqual(
        one.flagged_window_truncated_at_ends,
      );
    });
  }

  it('does not flag a blip of frozen data below the floor of the scale', () => {
    const one = find('hampel-frozen-with-blip');
    expect(Array.from(hampelSpikes(one.y, one.k, { scaleFloor: 0.01 }))).not.toContain(1);
  });
});

describe('median absolute deviation', () => {
  it('raw and scaled', () => {
    const one = find('mad');
    close(median(one.y), one.median);
    close(medianAbsoluteDeviation(one.y), one.mad_raw);
    close(medianAbsoluteDeviation(one.y) * NORMAL_CONSISTENCY, one.mad_scaled_1_4826);
  });
});

describe('corrected Akaike criterion', () => {
  it('criteria and weights of three models', () => {
    const one = find('aicc-weights');
    const criteria = one.p.map((p: number, i: number) => aicc(one.residual_sum_of_squares[i], p, one.n));
    for (const [i, value] of criteria.entries()) close(value, one.aicc[i]);
    for (const [i, value] of akaikeWeights(criteria).entries()) close(value, one.weights[i]);
  });
});
