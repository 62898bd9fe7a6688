/**
 * Value of c₀ + c₁·x + c₂·x² + … by Horner's rule.
 *
 * @param coefficients c₀ first [unit of the result per power of x]
 * @param x            argument [any unit]
 * @returns value [unit of c₀]; 0 for no coefficients
 * @range  any
 * @source W. G. Horner, A new method of solving numerical equations, 1819
 * @check  tests/core/fluids/polynomial.test.ts
 */
export function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * x + coefficients[i]!;
  return sum;
}

/**
 * Integral from 0 to x of a polynomial, exactly: c₀·x + c₁·x²/2 + c₂·x³/3 + …
 *
 * @param coefficients c₀ first [any unit]
 * @param x            upper bound [any unit]
 * @returns integral [unit of c₀ times unit of x]
 * @range  any
 * @source elementary; the same polynomial as `polynomial`
 * @check  tests/core/fluids/polynomial.test.ts
 */
export function polynomialIntegral(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * x + coefficients[i]! / (i + 1);
  return sum * x;
}

/**
 * Least value of a polynomial between two arguments, exactly: at one of the ends or where the derivative is zero. The
 * zeros of each derivative part the axis into stretches where the one before it is monotone, so that bisection misses none.
 *
 * @param coefficients c₀ first [any unit]
 * @param from         lower bound [any unit]
 * @param to           upper bound, ≥ from [any unit]
 * @returns argument and value of the least [unit of the argument], [unit of c₀]
 * @range  any finite coefficients; degrees above about 15 lose digits
 * @source elementary (Rolle's theorem)
 * @check  tests/core/fluids/polynomial.test.ts
 */
export function leastOfPolynomial(
  coefficients: readonly number[],
  from: number,
  to: number,
): { at: number; value: number } {
  let least = { at: from, value: polynomial(coefficients, from) };
  for (const at of [...zerosBetween(derivative(coefficients), from, to), to]) {
    const value = polynomial(coefficients, at);
    if (value < least.value) least = { at, value };
  }
  return least;
}

function derivative(coefficients: readonly number[]): number[] {
  return coefficients.slice(1).map((coefficient, i) => coefficient * (i + 1));
}

/** Where a polynomial changes sign, ascending. */
function zerosBetween(coefficients: readonly number[], from: number, to: number): number[] {
  if (coefficients.length < 2) return [];
  const turns = [from, ...zerosBetween(derivative(coefficients), from, to), to];
  const zeros: number[] = [];
  for (let i = 1; i < turns.length; i++) {
    const [left, right] = [turns[i - 1]!, turns[i]!];
    const isRising = polynomial(coefficients, left) < 0;
    if (isRising !== polynomial(coefficients, right) < 0) zeros.push(bisect(coefficients, left, right));
  }
  return zeros;
}

/** Halvings after which a double has no digits left to gain. */
const HALVINGS = 60;

function bisect(coefficients: readonly number[], from: number, to: number): number {
  const isNegativeAtLeft = polynomial(coefficients, from) < 0;
  let [left, right] = [from, to];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (left + right) / 2;
    if (polynomial(coefficients, middle) < 0 === isNegativeAtLeft) left = middle;
    else right = middle;
  }
  return (left + right) / 2;
}

/**
 * Powers x⁰, x¹ … up to the highest asked for, by repeated multiplication: what a table of many integer exponents needs,
 * at a fraction of the cost of as many calls of `**`.
 *
 * @param x       base [any unit]
 * @param highest greatest exponent [-], an integer of 0 or more
 * @returns highest + 1 powers [unit of x to the power]; relative rounding error about 1e-16 times the exponent
 * @range  any
 * @source elementary
 * @check  tests/core/fluids/polynomial.test.ts
 */
export function powers(x: number, highest: number): Float64Array {
  const list = new Float64Array(highest + 1);
  list[0] = 1;
  for (let i = 1; i <= highest; i++) list[i] = list[i - 1]! * x;
  return list;
}
