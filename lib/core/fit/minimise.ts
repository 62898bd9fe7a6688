/** Golden section: (3 − √5)/2. */
const GOLDEN = (3 - Math.sqrt(5)) / 2;
/** Share of the interval; a minimum is only known to the square root of the rounding error anyway. */
export const MINIMUM_TOLERANCE = 1e-9;
export const MINIMUM_ITERATIONS = 200;

/** Place and value of a minimum. */
export type Minimum = { x: number; value: number };

/**
 * Minimum of a function between two ends, by Brent's mixture of golden section and parabolic steps.
 * A local minimum where there are several; an end where the function falls towards it.
 *
 * @param f function of one number
 * @param interval lower and upper end [unit of x], upper > lower
 * @param options tolerance as a share of the interval [-]; maximumIterations [-]; a place within the interval to start from,
 *   which saves steps where its value lies below those of both ends
 * @returns place and value
 * @range any interval
 * @source Brent, Algorithms for Minimization without Derivatives, 1973, ch. 5
 * @check tests/core/fit/minimise.test.ts
 */
export function findMinimum(
  f: (x: number) => number,
  [low, high]: readonly [number, number],
  options: { tolerance?: number; maximumIterations?: number; start?: number } = {},
): Minimum {
  if (!(high > low)) throw new RangeError('the interval must have a length above 0');
  const tolerance = options.tolerance ?? MINIMUM_TOLERANCE;
  const steps = options.maximumIterations ?? MINIMUM_ITERATIONS;
  const width = high - low;
  let [a, b] = [low, high];
  let x = options.start ?? a + GOLDEN * (b - a);
  let [w, v] = [x, x];
  let fx = f(x);
  let [fw, fv] = [fx, fx];
  let step = 0;
  let previous = 0;
  if (options.start !== undefined) {
    // The first step then goes to the lowest point of the parabola through all three.
    [w, fw, v, fv] = [a, f(a), b, f(b)];
    if (fv < fw) [w, fw, v, fv] = [v, fv, w, fw];
    [step, previous] = [width, width];
  }
  for (let i = 0; i < steps; i++) {
    const middle = (a + b) / 2;
    const reach = tolerance * width + Number.EPSILON * Math.abs(x);
    if (Math.abs(x - middle) <= 2 * reach - (b - a) / 2) break;
    const trial = Math.abs(previous) > reach ? parabolicStep({ x, w, v, fx, fw, fv }) : Number.NaN;
    const isGood = Math.abs(trial) < Math.abs(previous / 2) && x + trial > a && x + trial < b;
    previous = isGood ? step : x < middle ? b - x : a - x;
    step = isGood ? trial : GOLDEN * previous;
    const u = x + (Math.abs(step) >= reach ? step : (step > 0 ? 1 : -1) * reach);
    const fu = f(u);
    if (fu <= fx) {
      if (u < x) b = x;
      else a = x;
      [v, fv, w, fw, x, fx] = [w, fw, x, fx, u, fu];
    } else {
      if (u < x) a = u;
      else b = u;
      if (fu <= fw || w === x) [v, fv, w, fw] = [w, fw, u, fu];
      else if (fu <= fv || v === x || v === w) [v, fv] = [u, fu];
    }
  }
  return { x, value: fx };
}

type Points = { x: number; w: number; v: number; fx: number; fw: number; fv: number };

/** Step from x to the lowest point of the parabola through three points; NaN where there is none. */
function parabolicStep({ x, w, v, fx, fw, fv }: Points): number {
  const r = (x - w) * (fx - fv);
  const q = (x - v) * (fx - fw);
  return -((x - v) * q - (x - w) * r) / (2 * (q - r));
}
