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
