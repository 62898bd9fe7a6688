import { autoregressiveFit } from '@/lib/core/fit/autoregressive';
import { leastSquares } from '@/lib/core/fit/least-squares';
import { effectiveCount, lagOneAutocorrelation } from '@/lib/core/stats/autocorrelation';
import { exactUpperTail, mannKendall } from '@/lib/core/stats/mann-kendall';
import { median } from '@/lib/core/stats/quantile';
import { mean, standardDeviation } from '@/lib/core/stats/spread';
import { theilSen } from '@/lib/core/stats/theil-sen';
import type { Check } from './check';
import { robustStatisticsChecks } from './robust-statistics';
import type { SourceName } from './sources';
import { absolute, asWritten } from './tolerance';
import { counted, figures, trendCase } from './trend-data';

function theilSenChecks(): Check[] {
  const sen = trendCase('theil-sen-sen1968');
  const line = theilSen(sen.t, sen.y, sen.confidence);
  const residuals = sen.y.map((y: number, i: number) => y - line.slope * sen.t[i]);
  const printed = { id: sen.id, source: 'Sen 1968', origin: 'printed' } as const;
  const phones = trendCase('huber-phones');
  const robust = theilSen(phones.x, phones.y);
  return [
    ...figures(printed, { slope: [sen.slope, line.slope] }),
    ...figures(
      { ...printed, tolerance: absolute(sen.tolerance, 'two decimals printed') },
      {
        'lower bound of the slope, 93 %': [sen.slope_low, line.low],
        'upper bound of the slope, 93 %': [sen.slope_high, line.high],
      },
    ),
    ...figures(
      { ...printed, origin: 'computed' },
      {
        'intercept by medians': [sen.intercept_median_y_minus_slope_median_t, line.intercept],
        'intercept by median of residuals': [sen.intercept_median_of_residuals, median(residuals)],
      },
    ),
    ...['mann-kendall-nile', 'mann-kendall-nhtemp'].flatMap((id) => {
      const one = trendCase(id);
      const own = theilSen(counted(one.y.length), one.y);
      return figures(
        { id: id.replace('mann-kendall', 'theil-sen'), source: 'scipy' },
        {
          slope: [one.slope, own.slope],
          intercept: [one.intercept, own.intercept],
          'lower bound of the slope, 95 %': [one.slope_low95, own.low],
          'upper bound of the slope, 95 %': [one.slope_high95, own.high],
        },
      );
    }),
    ...figures(
      { id: 'theil-sen-phones', source: 'scipy' },
      {
        'slope despite a fifth of wild values': [phones.theil_sen.slope, robust.slope],
        'intercept despite a fifth of wild values': [phones.theil_sen.intercept, robust.intercept],
      },
    ),
  ];
}

const MANN_KENDALL: [name: string, source: SourceName][] = [
  ['nile', 'R'],
  ['nhtemp', 'R'],
  ['constant', 'reference set'],
  ['two-values', 'reference set'],
  ['single-step', 'reference set'],
];

function mannKendallChecks(): Check[] {
  const tied = MANN_KENDALL.flatMap(([name, source]) => {
    const one = trendCase(`mann-kendall-${name}`);
    const test = mannKendall(one.y);
    return figures(
      { id: one.id, source },
      {
        S: [one.S, test.s],
        'variance of S with ties': [one.variance_of_S, test.variance],
        z: [one.Z, test.z],
        'two-sided probability': [one.p_two_sided, test.probability],
        slope: [one.slope, theilSen(counted(one.y.length), one.y).slope],
      },
    );
  });
  const ten = trendCase('mann-kendall-exact-10');
  const test = mannKendall(ten.y);
  const exact = figures(
    { id: ten.id, source: 'R' },
    {
      S: [ten.S, test.s],
      'variance of S': [ten.variance_of_S, test.variance],
      z: [ten.Z, test.z],
      'two-sided probability, normal': [ten.p_two_sided_normal, test.probability],
      'two-sided probability, exact': [ten.p_two_sided_exact, test.exactProbability!],
    },
  );
  type Tail = { n: number; P_S_at_least: [number, number][] };
  const tails = (trendCase('mann-kendall-exact-table').table as Tail[]).map(
    ({ n, P_S_at_least }): Check => ({
      id: `mann-kendall-exact-table, n = ${n}`,
      quantity: 'probability that S is at least so large',
      unit: '–',
      source: 'Gilbert 1987',
      origin: 'computed',
      tolerance: asWritten(1e-8, 'five digits given'),
      rows: P_S_at_least.map(([s, theirs]) => ({ at: `S ≥ ${s}`, theirs, ours: exactUpperTail(n, s) })),
    }),
  );
  return [...tied, ...exact, ...tails];
}

function autocorrelationChecks(): Check[] {
  return ['autocorrelation-mavro', 'autocorrelation-lew'].flatMap((id) => {
    const one = trendCase(id);
    const lag = lagOneAutocorrelation(one.y);
    const printed = { id, source: 'NIST StRD', origin: 'printed' } as const;
    return [
      ...figures({ ...printed, tolerance: asWritten(1e-14, 'certified') }, { mean: [one.mean, mean(one.y)] }),
      ...figures(
        { ...printed, tolerance: asWritten(1e-11, 'certified to 15 digits') },
        {
          'standard deviation': [one.standard_deviation, standardDeviation(one.y)],
          'lag-1 autocorrelation': [one.lag1, lag],
        },
      ),
      ...figures(
        { ...printed, origin: 'computed' },
        { 'effective number of values': [one.n_eff, effectiveCount(one.y.length, lag)] },
      ),
    ];
  });
}

function lakeHuronChecks(): Check[] {
  const one = trendCase('trend-with-autocorrelated-noise-lakehuron');
  const t = counted(one.y.length, one.t_first);
  const ones = t.map(() => 1);
  const ordinary = leastSquares([ones, t], one.y);
  const residuals = one.y.map(
    (y: number, i: number) => y - ordinary.parameters[0]! - ordinary.parameters[1]! * t[i]!,
  );
  const fit = autoregressiveFit(t, [ones, t], one.y);
  const gls = one.ar1_gls_ml;
  const arima = one.ar1_exact_likelihood;
  const meta = { id: 'lake-huron', source: 'Brockwell & Davis 1991' } as const;
  const optimiser = asWritten(2e-3, 'the file, for the optimiser of R');
  return [
    ...figures(
      { ...meta, tolerance: asWritten(1e-10, 'the file') },
      {
        'ordinary intercept': [one.ordinary.intercept, ordinary.parameters[0]!],
        'ordinary slope': [one.ordinary.slope, ordinary.parameters[1]!],
        'standard error of the ordinary slope': [one.ordinary.slope_se, ordinary.standardErrors[1]!],
      },
    ),
    ...figures(meta, {
      'lag-1 autocorrelation of the residuals': [
        one.ordinary.residual_lag1,
        lagOneAutocorrelation(residuals),
      ],
    }),
    ...figures(
      { ...meta, tolerance: optimiser, isIterated: true },
      {
        'φ of AR(1) noise (gls)': [gls.phi, fit.phi],
        'intercept with AR(1) noise (gls)': [gls.intercept, fit.parameters[0]!],
        'slope with AR(1) noise (gls)': [gls.slope, fit.parameters[1]!],
        'standard error of that slope (gls)': [gls.slope_se, fit.standardErrors[1]!],
        'φ of AR(1) noise (arima)': [arima.phi, fit.phi],
        'slope with AR(1) noise (arima)': [arima.slope, fit.parameters[1]!],
      },
    ),
    ...figures(
      { ...meta, tolerance: absolute(5e-3, 'two decimals printed') },
      { 'logarithm of the likelihood (arima)': [arima.log_likelihood, fit.logLikelihood] },
    ),
  ];
}

export function trendStatisticsChecks(): Check[] {
  return [
    ...theilSenChecks(),
    ...mannKendallChecks(),
    ...autocorrelationChecks(),
    ...lakeHuronChecks(),
    ...robustStatisticsChecks(),
  ];
}
