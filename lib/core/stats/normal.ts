/** Beyond this many standard deviations the upper tail underflows a double. */
const TAIL_END = 37;
/** Rational form below, continued fraction above (Hart 1968). */
const RATIONAL_END = 7.07106781186547;
const SQRT_TWO_PI = Math.sqrt(2 * Math.PI);

/** From here on what is left in the upper tail is less than half a unit in the last place of 1. */
const WHOLE_FROM = 8.3;

/** Highest power first. */
function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = 0; i < coefficients.length; i++) sum = sum * x + coefficients[i]!;
  return sum;
}

/** The two polynomials of the rational form, written out: they are worked out more often than anything else. */
function cdfTop(x: number): number {
  const high = ((3.52624965998911e-2 * x + 0.700383064443688) * x + 6.37396220353165) * x;
  return (((high + 33.912866078383) * x + 112.079291497871) * x + 221.213596169931) * x + 220.206867912376;
}

function cdfBottom(x: number): number {
  const high = ((8.83883476483184e-2 * x + 1.75566716318264) * x + 16.064177579207) * x + 86.7807322029461;
  const low = ((high * x + 296.564248779674) * x + 637.333633378831) * x;
  return (low + 793.826512519948) * x + 440.413735824752;
}

/** P(Z > x) for x ≥ 0, relative accuracy kept in the tail. */
function upperTail(x: number, bell = Math.exp((-x * x) / 2)): number {
  if (x > TAIL_END) return 0;
  if (x < RATIONAL_END) return (bell * cdfTop(x)) / cdfBottom(x);
  const fraction = x + 1 / (x + 2 / (x + 3 / (x + 4 / (x + 0.65))));
  return bell / fraction / SQRT_TWO_PI;
}

/**
 * Standard normal distribution function Φ(x).
 *
 * @param x [-]
 * @returns probability [-], 0 to 1; NaN for NaN
 * @range any; absolute error below 1e-14
 * @source Hart et al., Computer Approximations, 1968, algorithm 5666, as given by West, Wilmott Magazine, May 2005, 70-76
 * @check tests/core/stats/normal.test.ts
 */
export function normalCdf(x: number): number {
  return cdfGivenBell(x, Math.exp((-x * x) / 2));
}

/**
 * Standard normal distribution function where exp(−x²/2) is known already, as the density needs it too.
 *
 * @param x    standard normal variable [-]
 * @param bell exp(−x²/2) [-]
 * @returns P(Z ≤ x) [-]
 * @range any
 * @source Hart, Computer Approximations, 1968, as `normalCdf`
 * @check tests/core/stats/normal.test.ts
 */
export function cdfGivenBell(x: number, bell: number): number {
  if (x > WHOLE_FROM) return 1;
  return x > 0 ? 1 - upperTail(x, bell) : upperTail(-x, bell);
}

/**
 * Two-sided probability P(|Z| ≥ |x|) of a standard normal variable.
 *
 * @param x [-]
 * @returns probability [-], 0 to 1
 * @range any; relative accuracy kept in the tail
 * @source Hart et al., Computer Approximations, 1968, algorithm 5666
 * @check tests/published/trend-statistics.test.ts
 */
export function normalTwoSided(x: number): number {
  return Math.min(1, 2 * upperTail(Math.abs(x)));
}

/**
 * Standard normal density φ(x).
 *
 * @param x [-]
 * @returns [-], > 0
 * @range any
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.6.1
 * @check tests/core/stats/normal.test.ts
 */
export function normalDensity(x: number): number {
  return Math.exp((-x * x) / 2) / SQRT_TWO_PI;
}

const CENTRE_TOP = [
  -3.969683028665376e1, 2.209460984245205e2, -2.759285104469687e2, 1.38357751867269e2, -3.066479806614716e1,
  2.506628277459239,
];
const CENTRE_BOTTOM = [
  -5.447609879822406e1, 1.615858368580409e2, -1.556989798598866e2, 6.680131188771972e1, -1.328068155288572e1,
  1,
];
const TAIL_TOP = [
  -7.784894002430293e-3, -3.223964580411365e-1, -2.400758277161838, -2.549732539343734, 4.374664141464968,
  2.938163982698783,
];
const TAIL_BOTTOM = [7.784695709041462e-3, 3.224671290700398e-1, 2.445134137142996, 3.754408661907416, 1];
/** Where the first guess changes from its tail to its central form. */
const TAIL_PROBABILITY = 0.02425;

/** Rational first guess for p ≤ 1/2, relative error 1.2e-9. */
function quantileGuess(p: number): number {
  if (p < TAIL_PROBABILITY) {
    const q = Math.sqrt(-2 * Math.log(p));
    return polynomial(TAIL_TOP, q) / polynomial(TAIL_BOTTOM, q);
  }
  const q = p - 0.5;
  return (q * polynomial(CENTRE_TOP, q * q)) / polynomial(CENTRE_BOTTOM, q * q);
}

/**
 * Quantile of the standard normal distribution, Φ⁻¹(p): a rational guess and one Halley step on Φ.
 *
 * @param probability [-], 0 to 1
 * @returns [-]; −Infinity at 0 and Infinity at 1; NaN outside
 * @range 0 to 1, relative error below 1e-12
 * @source Wichura, Algorithm AS 241, Appl. Stat. 37 (1988) 477-484 (values); first guess by a minimax rational of Hastings' form
 * @check tests/core/stats/normal.test.ts
 */
export function normalQuantile(probability: number): number {
  if (!(probability >= 0 && probability <= 1)) return Number.NaN;
  if (probability === 0) return Number.NEGATIVE_INFINITY;
  if (probability > 0.5) return -normalQuantile(1 - probability);
  const guess = quantileGuess(probability);
  const step = (normalCdf(guess) - probability) / normalDensity(guess);
  return guess - step / (1 + (guess * step) / 2);
}
