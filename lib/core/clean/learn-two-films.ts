import { type AutoregressiveFit, autoregressiveFit, stepCorrelations, whiten } from '../fit/autoregressive';
import { leastSquares } from '../fit/least-squares';
import { typicalInterval } from '../series/typical-interval';
import { aicc } from '../stats/akaike';
import { quantile } from '../stats/quantile';
import type { CleanFactors } from './clean-reference';
import type { FilmSplit } from './film-split';
import { FEWEST_LEARNING_READINGS } from './learn-scale';

/**
 * Greatest condition index of the two films' columns, each scaled to unit length [-]: beyond 10 their dependence is no
 * longer weak (Belsley, Kuh & Welsch, Regression Diagnostics, 1980, sect. 3.2). It is √((1 + |ρ|)/(1 − |ρ|)) with ρ the
 * correlation of the two estimates: |ρ| = 0.98 there.
 */
export const GREATEST_CONDITION = 10;
/** Standard error of each factor, as a share of it, must be smaller [-] (own choice: the films are wanted to a few per cent). */
export const GREATEST_RELATIVE_ERROR = 0.15;
/** Two factors must beat one by this much of Akaike's criterion [-]: Burnham & Anderson 2002, sect. 2.6, "considerably less" support. */
export const LEAST_GAIN = 4;
/** Shares of the readings between which a flow is said to have varied [-]. */
const FLOW_QUANTILES = [0.05, 0.95] as const;
/** Parameters of each fit: its factors, and variance and autocorrelation of the noise [-]. */
const ONE_SCALE = 3;
const TWO_FILMS = 4;

/** Why two films cannot be told apart. */
export type FilmDoubt = 'too-few' | 'negative' | 'collinear' | 'uncertain' | 'no-better';

/** Factors of the two films with the evidence that they can, or cannot, be told apart. */
export type LearnedFilms = {
  factors: CleanFactors;
  /** Standard errors from scatter [-]; 0 for a film that the fit puts at 0. */
  uncertainty: { hot: number; cold: number };
  /** Correlation of the two estimates [-], and the condition index that follows [-]; Infinity where nothing tells them apart. */
  correlation: number;
  condition: number;
  /** Autocorrelation of the noise from one reading to the next [-]. */
  autocorrelation: number;
  /** Scatter about the fit, and about one common factor, as a share of 1/U [-]. */
  scatter: number;
  scatterOfOneScale: number;
  /** How much of Akaike's criterion two factors gain on one [-]; positive is better. */
  gain: number;
  /** Span of each flow, 5 % to 95 % of the readings [kg/s]. */
  hotFlow: readonly [number, number];
  coldFlow: readonly [number, number];
  /** Empty where the two films can be told apart. */
  doubts: FilmDoubt[];
  from: number;
  to: number;
  readings: number;
};

/**
 * Learns the two films of a clean unit separately, the modern form of Wilson's plot: 1/U = Rw + fh·Rh(ṁh, Th) +
 * fc·Rc(ṁc, Tc) over readings whose flows varied, the wall as on the datasheet, by weighted least squares with factors
 * not below 0.
 *
 * The identifiability test: at least 24 readings; both factors above 0; condition index of the two films below 10; each
 * standard error below 15 % of its factor; corrected Akaike criterion at least 4 better than that of one common factor.
 * The noise is taken as AR(1), its autocorrelation by maximum likelihood: what changes slowly, such as fouling that begins
 * within the period, is then left to the noise, and standard errors and criterion are those of the whitened readings.
 *
 * @param split resistances of accepted readings of a clean period, length n [m²·K/W]
 * @returns factors [-] with their evidence; null for fewer than five readings
 * @range  one flow regime; the exponents count as known
 * @source Wilson, Trans. ASME 37 (1915) 47; Lawson & Hanson, Solving Least Squares Problems, 1974, ch. 23 (non-negative)
 * @check  tests/core/clean/learn-two-films.test.ts
 */
export function learnTwoFilms(split: FilmSplit): LearnedFilms | null {
  const readings = split.time.length;
  if (readings <= TWO_FILMS) return null;
  const { free, whitened } = fitFreely(split);
  const [hot, cold] = notNegative(free.parameters, whitened);
  const scale = leastSquares([whitened.clean], whitened.total).parameters[0]!;
  const gain =
    aicc(
      squares(whitened.total, (i) => scale * whitened.clean[i]!),
      ONE_SCALE,
      readings,
    ) -
    aicc(
      squares(whitened.target, (i) => hot * whitened.hot[i]! + cold * whitened.cold[i]!),
      TWO_FILMS,
      readings,
    );
  const correlation = free.covariance[0]![1]! / (free.standardErrors[0]! * free.standardErrors[1]!);
  const learned = {
    factors: { hot, wall: 1, cold },
    uncertainty: {
      hot: hot > 0 ? free.standardErrors[0]! : 0,
      cold: cold > 0 ? free.standardErrors[1]! : 0,
    },
    correlation,
    condition: conditionOf(correlation),
    autocorrelation: free.phi,
    scatter: relativeScatter(split, (i) => split.wall + hot * split.hot[i]! + cold * split.cold[i]!),
    scatterOfOneScale: relativeScatter(split, (i) => scale * (split.wall + split.hot[i]! + split.cold[i]!)),
    gain,
    hotFlow: spanOf(split.hotFlow),
    coldFlow: spanOf(split.coldFlow),
    from: split.time[0]!,
    to: split.time.at(-1)!,
    readings,
  };
  return { ...learned, doubts: doubtsOf(learned) };
}

/** Columns divided by the uncertainty of 1/U, with the autocorrelation of the noise taken out. */
type Whitened = Record<'hot' | 'cold' | 'clean' | 'target' | 'total', Float64Array>;

function fitFreely(split: FilmSplit): { free: AutoregressiveFit; whitened: Whitened } {
  const { time, total, wall, hot, cold, uncertainty } = split;
  const step = typicalInterval(time);
  const steps = time.map((at) => (at - time[0]!) / step);
  const scaled = (value: (i: number) => number) => time.map((_, i) => value(i) / uncertainty[i]!);
  const columns = {
    hot: scaled((i) => hot[i]!),
    cold: scaled((i) => cold[i]!),
    clean: scaled((i) => wall + hot[i]! + cold[i]!),
    target: scaled((i) => total[i]! - wall),
    total: scaled((i) => total[i]!),
  };
  const free = autoregressiveFit(steps, [columns.hot, columns.cold], columns.target);
  const rho = stepCorrelations(steps, free.phi);
  for (const column of Object.values(columns)) whiten(rho, column);
  return { free, whitened: columns };
}

/** The free solution, or with the film that came out negative at 0 and the other fitted alone: exact for two unknowns. */
function notNegative(free: readonly number[], { hot, cold, target }: Whitened): [number, number] {
  const [first, second] = free as [number, number];
  if (first >= 0 && second >= 0) return [first, second];
  if (first >= 0) return [Math.max(0, leastSquares([hot], target).parameters[0]!), 0];
  return [0, Math.max(0, leastSquares([cold], target).parameters[0]!)];
}

function squares(values: Float64Array, fitted: (i: number) => number): number {
  // A perfect fit has no logarithm; the least that a double can hold keeps the criterion finite.
  return values.reduce((sum, value, i) => sum + (value - fitted(i)) ** 2, Number.MIN_VALUE);
}

function conditionOf(correlation: number): number {
  const size = Math.abs(correlation);
  return size < 1 ? Math.sqrt((1 + size) / (1 - size)) : Number.POSITIVE_INFINITY;
}

function relativeScatter({ total }: FilmSplit, fitted: (i: number) => number): number {
  return Math.sqrt(total.reduce((sum, value, i) => sum + (1 - fitted(i) / value) ** 2, 0) / total.length);
}

function spanOf(flow: Float64Array): readonly [number, number] {
  return [quantile(flow, FLOW_QUANTILES[0]), quantile(flow, FLOW_QUANTILES[1])];
}

function doubtsOf({
  factors,
  uncertainty,
  condition,
  gain,
  readings,
}: Omit<LearnedFilms, 'doubts'>): FilmDoubt[] {
  const doubts: FilmDoubt[] = [];
  const isPositive = factors.hot > 0 && factors.cold > 0;
  const isCertain =
    uncertainty.hot < GREATEST_RELATIVE_ERROR * factors.hot &&
    uncertainty.cold < GREATEST_RELATIVE_ERROR * factors.cold;
  if (readings < FEWEST_LEARNING_READINGS) doubts.push('too-few');
  if (!isPositive) doubts.push('negative');
  if (!(condition < GREATEST_CONDITION)) doubts.push('collinear');
  if (isPositive && !isCertain) doubts.push('uncertain');
  if (!(gain >= LEAST_GAIN)) doubts.push('no-better');
  return doubts;
}
