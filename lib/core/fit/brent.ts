/** Stop when the bracket is this small relative to the root unless asked otherwise. */
export const ROOT_TOLERANCE = 1e-12;
export const ROOT_ITERATIONS = 100;

/** Absolute tolerance on x and the most steps allowed. */
export type RootOptions = { tolerance?: number; maximumIterations?: number };

/**
 * Root of a continuous function in a bracket, by Brent's mixture of bisection, secant and inverse quadratic steps.
 *
 * @param f continuous function of one number
 * @param low one end of the bracket
 * @param high the other end; f(low) and f(high) must differ in sign
 * @param options tolerance [unit of x] beside 4 ulp; maximumIterations [-]
 * @returns root [unit of x]; NaN where the ends do not bracket a root or f yields NaN
 * @range any bracket
 * @source Brent, Algorithms for Minimization without Derivatives, 1973, ch. 4
 * @check tests/core/fit/brent.test.ts
 */
export function findRoot(
  f: (x: number) => number,
  low: number,
  high: number,
  options: RootOptions = {},
): number {
  const tolerance = options.tolerance ?? ROOT_TOLERANCE;
  const steps = options.maximumIterations ?? ROOT_ITERATIONS;
  let [a, b] = [low, high];
  let [fa, fb] = [f(a), f(b)];
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (!(fa * fb < 0)) return Number.NaN;
  let [c, fc] = [a, fa];
  let step = b - a;
  let previous = step;
  for (let i = 0; i < steps; i++) {
    if (Math.abs(fc) < Math.abs(fb)) [a, b, c, fa, fb, fc] = [b, c, b, fb, fc, fb];
    const reach = 2 * Number.EPSILON * Math.abs(b) + tolerance / 2;
    const half = (c - b) / 2;
    if (Math.abs(half) <= reach || fb === 0) return b;
    const trial = interpolate({ a, b, c, fa, fb, fc });
    const isGood =
      Math.abs(previous) >= reach &&
      Math.abs(fa) > Math.abs(fb) &&
      trial * half > 0 &&
      2 * Math.abs(trial) < Math.min(3 * Math.abs(half) - reach, Math.abs(previous));
    previous = isGood ? step : half;
    step = isGood ? trial : half;
    a = b;
    fa = fb;
    b += Math.abs(step) > reach ? step : Math.sign(half) * reach;
    fb = f(b);
    if (Number.isNaN(fb)) return Number.NaN;
    if (fb * fc > 0) [c, fc, step, previous] = [a, fa, b - a, b - a];
  }
  return b;
}

type Points = { a: number; b: number; c: number; fa: number; fb: number; fc: number };

/** Step from b by inverse quadratic interpolation, or by the secant where only two points differ. */
function interpolate({ a, b, c, fa, fb, fc }: Points): number {
  const s = fb / fa;
  if (a === c) return ((c - b) * s) / (s - 1);
  const q = fa / fc;
  const r = fb / fc;
  const top = s * ((c - b) * q * (q - r) - (b - a) * (r - 1));
  return -top / ((q - 1) * (r - 1) * (s - 1));
}
