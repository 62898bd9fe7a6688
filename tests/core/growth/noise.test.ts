import { describe, expect, it } from 'vitest';
import { dailyFigures } from '@/lib/core/growth/daily-figures';
import { noiseAutocorrelation } from '@/lib/core/growth/noise';
import { makeRandom } from '@/lib/core/stats/random';

const NOISE = 5e-6;

function estimate(phi: number, days: number, seed: number): number {
  const random = makeRandom(seed);
  let noise = random.normal();
  const ageDays: number[] = [];
  const foulingResistance: number[] = [];
  for (let age = 1; age <= days; age++) {
    noise = phi * noise + Math.sqrt(1 - phi * phi) * random.normal();
    if (age % 5 === 0 || (age > 40 && age < 60)) continue;
    ageDays.push(age);
    foulingResistance.push(1e-6 * age + NOISE * noise);
  }
  return noiseAutocorrelation(
    dailyFigures({ ageDays, foulingResistance, uncertainty: ageDays.map(() => NOISE) }),
  );
}

describe('autocorrelation of the noise', () => {
  it('is recovered within 0.1 on average, in spite of gaps and of the fitted curve', () => {
    for (const phi of [0, 0.3, 0.6]) {
      const values = Array.from({ length: 20 }, (_, i) => estimate(phi, 150, 300 + i));
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      expect(Math.abs(mean - phi)).toBeLessThan(0.1);
    }
  });

  it('is taken as 0.3 where there are too few figures to tell', () => expect(estimate(0, 7, 1)).toBe(0.3));

  it('is a number between 0 and 0.95 for figures without any noise', () => {
    for (const rate of [0, 1e-6]) {
      const ageDays = Array.from({ length: 20 }, (_, i) => i);
      const foulingResistance = ageDays.map((age) => rate * age);
      const phi = noiseAutocorrelation(
        dailyFigures({ ageDays, foulingResistance, uncertainty: ageDays.map(() => 1e-6) }),
      );
      expect(phi).toBeGreaterThanOrEqual(0);
      expect(phi).toBeLessThanOrEqual(0.95);
    }
  });
});
