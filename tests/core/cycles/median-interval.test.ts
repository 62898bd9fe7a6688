import { describe, expect, it } from 'vitest';
import { medianInterval } from '@/lib/core/cycles/median-interval';
import { makeRandom } from '@/lib/core/stats/random';

const oneTo = (n: number) => Array.from({ length: n }, (_, i) => i + 1);

describe('interval of a median', () => {
  // Ranks as in tables of the sign test (from memory), confidences by SciPy 1.17: 1 − 2·binom.cdf(r − 1, n, 1/2).
  it.each([
    [6, 1, 0.96875],
    [10, 2, 0.978515625],
    [20, 6, 0.9586105346679688],
    [30, 10, 0.9572260547429323],
  ])(
    'of %i values runs from the %i-th smallest to the one as far from the other end',
    (n, rank, confidence) => {
      const interval = medianInterval(oneTo(n).reverse())!;
      expect([interval.low, interval.high]).toEqual([rank, n + 1 - rank]);
      expect(interval.confidence).toBeCloseTo(confidence, 12);
    },
  );

  it('cannot be told from fewer than six values', () => {
    expect(medianInterval(oneTo(5))).toBeNull();
    expect(medianInterval([])).toBeNull();
  });

  it('holds the true median of a skewed population as often as it says', () => {
    const random = makeRandom(5);
    const runs = 4000;
    let held = 0;
    let confidence = 0;
    for (let run = 0; run < runs; run++) {
      const interval = medianInterval(Array.from({ length: 13 }, () => Math.exp(random.normal())))!;
      if (interval.low <= 1 && interval.high >= 1) held++;
      confidence = interval.confidence;
    }
    expect(Math.abs(held / runs - confidence)).toBeLessThan(3 * Math.sqrt(0.05 / runs));
  });
});
