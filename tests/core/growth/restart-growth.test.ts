import { describe, expect, it } from 'vitest';
import { fitGrowth } from '@/lib/core/growth/fit-growth';
import { projectBand } from '@/lib/core/growth/project-band';
import { restartGrowth } from '@/lib/core/growth/restart-growth';
import { smoothFouling } from '@/lib/core/growth/smooth-fouling';
import { makeRandom } from '@/lib/core/stats/random';

const random = makeRandom(2);
const ageDays = Float64Array.from({ length: 120 }, (_, i) => i);
const growth = fitGrowth({
  ageDays,
  foulingResistance: ageDays.map((t) => 3e-5 + 1e-6 * t + 1e-6 * random.normal()),
  uncertainty: ageDays.map(() => 1e-6),
});
const p10To90 = 2 * 1.2815515655446004;

describe('growth begun anew after a cleaning', () => {
  const restart = { level: 1e-5, levelUncertainty: 0, rateSpread: 0.2 };
  const band = projectBand({ growth: restartGrowth(growth, restart), ages: [0, 50, 100] });

  it('starts at what the cleaning left and grows as the running cycle did', () => {
    expect(band.p50[0]).toBeCloseTo(1e-5, 9);
    for (const i of [1, 2]) {
      const grown = smoothFouling(growth, band.ageDays[i]!) - smoothFouling(growth, 0);
      expect(Math.abs((band.p50[i]! - 1e-5) / grown - 1)).toBeLessThan(0.03);
    }
  });

  it('is as uncertain as rates differ from cycle to cycle', () => {
    const deviation = (band.p90[2]! - band.p10[2]!) / p10To90;
    expect(Math.abs(deviation / (0.2 * 100e-6) - 1)).toBeLessThan(0.05);
  });

  it('is as uncertain at its beginning as what a cleaning leaves', () => {
    const unsure = restartGrowth(growth, { ...restart, levelUncertainty: 4e-6 });
    const { p10, p90 } = projectBand({ growth: unsure, ages: [0] });
    expect((p90[0]! - p10[0]!) / p10To90 / 4e-6).toBeCloseTo(1, 3);
  });
});
