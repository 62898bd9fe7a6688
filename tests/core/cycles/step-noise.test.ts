import { describe, expect, it } from 'vitest';
import { stepNoise } from '@/lib/core/cycles/step-noise';
import { median } from '@/lib/core/stats/quantile';
import { makeRandom } from '@/lib/core/stats/random';

const DEVIATION = 8e-6;
const RECORDS = 40;

/** AR(1) noise on a fifth of days missing, with growth and a step of ten deviations. */
function record(phi: number, seed: number) {
  const random = makeRandom(seed);
  let noise = random.normal();
  const t: number[] = [];
  const y: number[] = [];
  for (let day = 0; day < 300; day++) {
    noise = phi * noise + Math.sqrt(1 - phi * phi) * random.normal();
    if (random.uniform() < 0.2) continue;
    t.push(day);
    y.push(1e-6 * day + DEVIATION * (noise - (day >= 170 ? 10 : 0)));
  }
  return { t, y };
}
/** Step of the autocorrelations that are tried. */
const TRIED_STEP = 0.1;

describe('noise of daily figures', () => {
  it.each([0, 0.3, 0.5, 0.7])('of autocorrelation %f is told in spite of growth, gaps and a step', (phi) => {
    const found = Array.from({ length: RECORDS }, (_, k) => {
      const { t, y } = record(phi, 900 + k);
      return stepNoise(t, y);
    });
    const middle = median(found.map(({ autocorrelation }) => autocorrelation));
    expect(Math.abs(middle - phi)).toBeLessThanOrEqual(TRIED_STEP + 1e-12);
    // What one day adds is well known; a larger correlation with a larger deviation is hard to tell from it. Single estimates
    // scatter by 10 %, so the middle of 40 of them by 2 %; the step and its neighbours add some.
    const daily = found.map((own) => own.deviation * Math.sqrt(1 - own.autocorrelation ** 2));
    expect(Math.abs(median(daily) / (DEVIATION * Math.sqrt(1 - phi ** 2)) - 1)).toBeLessThan(0.1);
  });

  it('is the same on a straight line, and twice as large for figures twice as large', () => {
    const { t, y } = record(0.4, 1);
    const own = stepNoise(t, y);
    const tilted = stepNoise(
      t,
      y.map((value, i) => value + 3e-6 * t[i]!),
    );
    expect(tilted.deviation).toBeCloseTo(own.deviation, 15);
    expect(tilted.autocorrelation).toBe(own.autocorrelation);
    const doubled = stepNoise(
      t,
      y.map((value) => 2 * value),
    );
    expect(doubled.deviation / own.deviation).toBeCloseTo(2, 12);
  });

  it('of few figures has a typical autocorrelation', () => {
    const { t, y } = record(0.7, 2);
    expect(stepNoise(t.slice(0, 20), y.slice(0, 20)).autocorrelation).toBe(0.3);
  });

  it('is never 0, so that it can be divided by', () => {
    expect(stepNoise([1, 2, 3, 4], [0, 0, 0, 0]).deviation).toBeGreaterThan(0);
    expect(stepNoise([], []).deviation).toBeGreaterThan(0);
  });
});
