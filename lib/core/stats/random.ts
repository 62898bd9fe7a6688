/** A reproducible stream of random numbers: the same seed gives the same stream on every machine. */
export type Random = {
  /** Uniform on [0, 1). */
  uniform: () => number;
  /** Standard normal. */
  normal: () => number;
};

const TWO_TO_32 = 4294967296;
/** Steps thrown away so that near seeds give unlike streams. */
const WARM_UP_STEPS = 15;

/**
 * Seeded generator of uniform and normal numbers (small fast counting generator, 32 bit, 128 bits of state).
 *
 * @param seed any integer below 2^53 in magnitude
 * @returns stream with `uniform` [0, 1) and `normal` (mean 0, deviation 1)
 * @range period at least 2^32
 * @source Doty-Humphrey, PractRand documentation, sfc32; normals by Marsaglia & Bray, SIAM Review 6 (1964) 260-264
 * @check tests/core/stats/random.test.ts
 */
export function makeRandom(seed: number): Random {
  if (!Number.isSafeInteger(seed)) throw new RangeError('seed must be an integer');
  const next = sfc32(seed | 0, Math.floor(seed / TWO_TO_32) | 0);
  let spare: number | null = null;
  const uniform = () => next() / TWO_TO_32;
  const normal = () => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    const pair = polarPair(uniform);
    spare = pair[1];
    return pair[0];
  };
  return { uniform, normal };
}

function sfc32(low: number, high: number): () => number {
  let a = 0;
  let b = low;
  let c = high;
  let counter = 1;
  const next = () => {
    const sum = (a + b + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    c |= 0;
    return sum >>> 0;
  };
  for (let i = 0; i < WARM_UP_STEPS; i++) next();
  return next;
}

function polarPair(uniform: () => number): [number, number] {
  for (;;) {
    const x = 2 * uniform() - 1;
    const y = 2 * uniform() - 1;
    const square = x * x + y * y;
    if (square > 0 && square < 1) {
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      return [x * factor, y * factor];
    }
  }
}
