import { describe, expect, it } from 'vitest';
import { fitGrowth } from '@/lib/core/growth/fit-growth';
import { projectBand } from '@/lib/core/growth/project-band';
import { makeRandom } from '@/lib/core/stats/random';

function fitted(days: number) {
  const random = makeRandom(2);
  const ageDays = Float64Array.from({ length: days }, (_, i) => i + 1);
  const foulingResistance = ageDays.map((t) => 1e-6 * t + 5e-6 * random.normal());
  return fitGrowth({ ageDays, foulingResistance, uncertainty: ageDays.map(() => 5e-6) });
}

describe('projected band', () => {
  const ages = Float64Array.from({ length: 40 }, (_, i) => 5 * i);
  const band = projectBand({ growth: fitted(90), ages });

  it('has its three lines in order at every age, none of them falling', () => {
    for (let i = 0; i < ages.length; i++) {
      expect(band.p10[i]).toBeLessThan(band.p50[i]!);
      expect(band.p50[i]).toBeLessThan(band.p90[i]!);
      if (i > 0 && ages[i]! >= 10) expect(band.p50[i]).toBeGreaterThanOrEqual(band.p50[i - 1]!);
    }
    expect(Array.from(band.ageDays)).toEqual(Array.from(ages));
  });

  it('widens into the future and holds the fitted state at the last figure', () => {
    const width = (i: number) => band.p90[i]! - band.p10[i]!;
    expect(width(39)).toBeGreaterThan(2 * width(18));
    expect(Math.abs(band.p50[18]! - 90e-6)).toBeLessThan(4e-6);
  });

  it('is NaN without figures', () => {
    const none = projectBand({ growth: fitted(0), ages: [0, 1] });
    expect(Array.from(none.p50)).toEqual([Number.NaN, Number.NaN]);
  });
});
