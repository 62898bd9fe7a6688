import { huberFit, huberLine } from '@/lib/core/fit/huber';
import { leastSquares } from '@/lib/core/fit/least-squares';
import { aicc, akaikeWeights } from '@/lib/core/stats/akaike';
import { hampelSpikes } from '@/lib/core/stats/hampel';
import { median } from '@/lib/core/stats/quantile';
import { medianAbsoluteDeviation, NORMAL_CONSISTENCY } from '@/lib/core/stats/spread';
import { weightedLine } from '@/lib/core/stats/weighted-line';
import type { Check } from './check';
import { absolute, exactly, relative } from './tolerance';
import { figures, hampelCases, trendCase } from './trend-data';

function huberChecks(): Check[] {
  const loss = trendCase('huber-stackloss');
  const fit = huberFit([loss.y.map(() => 1), loss.x1, loss.x2, loss.x3], loss.y);
  const near = absolute(1e-5, 'the file: R and statsmodels differ by so much');
  const phones = trendCase('huber-phones');
  const line = huberLine(phones.x, phones.y);
  const ordinary = weightedLine(phones.x, phones.y);
  const names = ['intercept', 'air flow', 'water temperature', 'acid concentration'];
  return [
    ...figures({ id: 'huber-stackloss', source: 'R', tolerance: near, isIterated: true }, {
      ...Object.fromEntries(
        names.map((name, i) => [name, [loss.coefficients_converged[i], fit.parameters[i]!] as const]),
      ),
      scale: [loss.scale_converged, fit.scale],
      ...Object.fromEntries(
        Object.entries<number>(loss.weights_below_one).map(([label, weight]) => [
          `weight of point ${label}`,
          [weight, fit.weights[Number(label) - 1]!] as const,
        ]),
      ),
    } as Record<string, [number, number]>),
    {
      id: 'huber-stackloss: printed coefficients',
      quantity: 'coefficients as printed, R stopping at 1e-4',
      unit: '–',
      source: 'Brownlee 1965',
      origin: 'printed',
      tolerance: absolute(1e-4, 'the stop of R and four decimals printed'),
      rows: names.map((at, i) => ({
        at,
        theirs: loss.coefficients_default_stop[i],
        ours: fit.parameters[i]!,
      })),
    },
    ...figures(
      { id: 'huber-phones', source: 'R', isIterated: true },
      {
        intercept: [phones.converged.intercept, line.intercept],
        slope: [phones.converged.slope, line.slope],
        scale: [phones.converged.scale, line.scale],
        'intercept of least squares': [phones.least_squares.intercept, ordinary.intercept],
        'slope of least squares': [phones.least_squares.slope, ordinary.slope],
      },
    ),
    ...figures(
      {
        id: 'huber-phones, printed',
        source: 'Venables & Ripley',
        origin: 'recalled',
        tolerance: absolute(5e-3, 'the book stops at 1e-4 of the coefficients'),
      },
      { slope: [phones.printed.slope, line.slope] },
    ),
    ...figures(
      {
        id: 'huber-phones, printed',
        source: 'Venables & Ripley',
        origin: 'recalled',
        tolerance: relative(2.5e-3, 'the book stops before the iteration has converged'),
      },
      {
        intercept: [phones.printed.intercept, line.intercept],
        scale: [phones.printed.scale, line.scale],
      },
    ),
  ];
}

function weightedChecks(): Check[] {
  const one = trendCase('weighted-least-squares');
  const line = weightedLine(one.x, one.y, one.weights);
  const fit = leastSquares([one.x.map(() => 1), one.x], one.y, one.weights);
  return figures(
    { id: one.id, source: 'statsmodels' },
    {
      intercept: [one.intercept, line.intercept],
      slope: [one.slope, line.slope],
      'standard error of the intercept': [one.intercept_se, line.interceptError],
      'standard error of the slope': [one.slope_se, line.slopeError],
      'residual variance': [one.residual_variance, line.residualVariance],
      'standard error of the intercept, by the general route': [one.intercept_se, fit.standardErrors[0]!],
    },
  );
}

/** Places flagged: each value of the series is a row, 1 where it is a spike. */
function hampelChecks(): Check[] {
  return hampelCases.map((one) => {
    const spikes = hampelSpikes(one.y, one.k);
    return {
      id: one.id,
      quantity: 'spike (1) or not (0), value by value',
      unit: '–',
      source: 'Pearson 2002',
      origin: 'computed',
      tolerance: exactly('a flag'),
      rows: (one.y as number[]).map((_, i) => ({
        at: `value ${i}`,
        theirs: one.flagged_window_truncated_at_ends.includes(i) ? 1 : 0,
        ours: spikes[i] ? 1 : 0,
      })),
    };
  });
}

function spreadChecks(): Check[] {
  const one = trendCase('mad');
  return figures(
    { id: 'mad', source: 'R' },
    {
      median: [one.median, median(one.y)],
      'median absolute deviation': [one.mad_raw, medianAbsoluteDeviation(one.y)],
      'median absolute deviation × 1.4826': [
        one.mad_scaled_1_4826,
        medianAbsoluteDeviation(one.y) * NORMAL_CONSISTENCY,
      ],
    },
  );
}

function akaikeChecks(): Check[] {
  const one = trendCase('aicc-weights');
  const criteria: number[] = one.p.map((p: number, i: number) =>
    aicc(one.residual_sum_of_squares[i], p, one.n),
  );
  const weights = akaikeWeights(criteria);
  const pairs = criteria.flatMap((value, i) => [
    [`AICc of ${one.p[i]} parameters`, [one.aicc[i], value]],
    [`weight of ${one.p[i]} parameters`, [one.weights[i], weights[i]!]],
  ]);
  return figures({ id: one.id, source: 'Burnham & Anderson' }, Object.fromEntries(pairs));
}

export function robustStatisticsChecks(): Check[] {
  return [...huberChecks(), ...weightedChecks(), ...hampelChecks(), ...spreadChecks(), ...akaikeChecks()];
}
