/** Sums over the rows that lie equally far behind the row before them. */
type Stepped = {
  /** [days]; Infinity for the first row, which has none before it. */
  step: number;
  rows: number;
  /** Of each pair of columns a and b: Σ a·b, Σ (a·b′ + a′·b) and Σ a′·b′, where ′ is the row before. */
  own: Float64Array;
  crossed: Float64Array;
  before: Float64Array;
};

/** All that AR(1) noise of any correlation asks of some columns. */
export type StepProducts = { size: number; stepped: readonly Stepped[] };

/**
 * Products of columns with each other, so summed that their rows need not be gone through again for each correlation.
 *
 * @param t ages, ascending [days], n values
 * @param columns arrays of n values
 * @returns sums over the rows by their steps
 * @range any; quick where most steps are alike
 * @source products of e(i) = (z(i) − ρ·z(i−1))/√(1 − ρ²), multiplied out: see `whiten`
 * @check tests/core/fit/step-products.test.ts
 */
export function stepProducts(t: Float64Array, columns: readonly Float64Array[]): StepProducts {
  const size = columns.length;
  const known = new Map<number, Stepped>();
  const stepTo = (i: number) => (i === 0 ? Number.POSITIVE_INFINITY : t[i]! - t[i - 1]!);
  for (let from = 0; from < t.length; ) {
    const step = stepTo(from);
    let to = from + 1;
    while (to < t.length && stepTo(to) === step) to++;
    const sums = known.get(step) ?? noSums(step, size);
    known.set(step, sums);
    addRows(sums, columns, [from, to]);
    from = to;
  }
  return { size, stepped: [...known.values()] };
}

function noSums(step: number, size: number): Stepped {
  const sums = () => new Float64Array(size * size);
  return { step, rows: 0, own: sums(), crossed: sums(), before: sums() };
}

function addRows(
  sums: Stepped,
  columns: readonly Float64Array[],
  [from, to]: readonly [number, number],
): void {
  sums.rows += to - from;
  columns.forEach((a, j) => {
    for (let k = j; k < columns.length; k++)
      addPair(sums, j * columns.length + k, { a, b: columns[k]!, from, to });
  });
}

type Pair = { a: Float64Array; b: Float64Array; from: number; to: number };

function addPair(sums: Stepped, place: number, { a, b, from, to }: Pair): void {
  let own = 0;
  let crossed = 0;
  let before = 0;
  let lastA = from === 0 ? 0 : a[from - 1]!;
  let lastB = from === 0 ? 0 : b[from - 1]!;
  for (let i = from; i < to; i++) {
    const thisA = a[i]!;
    const thisB = b[i]!;
    own += thisA * thisB;
    crossed += thisA * lastB + lastA * thisB;
    before += lastA * lastB;
    lastA = thisA;
    lastB = thisB;
  }
  sums.own[place]! += own;
  sums.crossed[place]! += crossed;
  sums.before[place]! += before;
}

/**
 * Products of the columns with each other once AR(1) noise is taken out of them.
 *
 * @param products as `stepProducts` sums them
 * @param phi correlation over one day [-], 0 ≤ φ < 1
 * @returns size × size matrix, its upper half, and Σ ln(1 − ρ²) over the rows [-], the logarithm of the noise's determinant
 * @range as for φ; rounding grows with 1/(1 − φ)²
 * @source Brockwell & Davis, Introduction to Time Series and Forecasting, 2nd ed. 2002, sect. 2.2 and 6.6
 * @check tests/core/fit/step-products.test.ts
 */
export function whitenedProducts(
  { size, stepped }: StepProducts,
  phi: number,
): { matrix: Float64Array; logDeterminant: number } {
  const matrix = new Float64Array(size * size);
  let logDeterminant = 0;
  for (const { step, rows, own, crossed, before } of stepped) {
    const rho = phi ** step;
    const rest = 1 - rho * rho;
    logDeterminant += rows * Math.log1p(-rho * rho);
    for (let k = 0; k < matrix.length; k++)
      matrix[k]! += (own[k]! - rho * (crossed[k]! - rho * before[k]!)) / rest;
  }
  return { matrix, logDeterminant };
}
