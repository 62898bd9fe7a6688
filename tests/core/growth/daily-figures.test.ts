import { describe, expect, it } from 'vitest';
import { dailyFigures } from '@/lib/core/growth/daily-figures';
import { makeRandom } from '@/lib/core/stats/random';

const DAYS = 60;
const NOISE = 5e-6;

function record(seed = 1) {
  const random = makeRandom(seed);
  const ageDays = Float64Array.from({ length: DAYS }, (_, i) => i + 1);
  const foulingResistance = ageDays.map((t) => 1e-6 * t + NOISE * random.normal());
  return { ageDays, foulingResistance, uncertainty: ageDays.map(() => NOISE) };
}

describe('daily figures prepared for a fit', () => {
  it('days that are not a number are left out', () => {
    const figures = record();
    figures.foulingResistance[3] = Number.NaN;
    expect(Array.from(dailyFigures(figures).t)).not.toContain(4);
  });

  it('outlying days are left out and the others keep their weight', () => {
    const figures = record();
    for (const i of [5, 30, 31, 32]) figures.foulingResistance[i]! += 40 * NOISE;
    const { t, deviation } = dailyFigures(figures);
    expect(t).toHaveLength(DAYS - 4);
    for (const age of [6, 31, 32, 33]) expect(Array.from(t)).not.toContain(age);
    expect(Math.max(...deviation) / Math.min(...deviation)).toBeLessThan(1.3);
  });

  it('days between three and five deviations lose weight by degrees', () => {
    const figures = record();
    figures.foulingResistance[30] = 31e-6 + 4.2 * NOISE;
    const { t, deviation } = dailyFigures(figures);
    const at = Array.from(t).indexOf(31);
    expect(deviation[at]! / deviation[0]!).toBeGreaterThan(1.2);
  });

  it('scatter that the stated uncertainty does not explain is added to it', () => {
    const figures = record();
    const { deviation } = dailyFigures({
      ...figures,
      uncertainty: figures.uncertainty.map(() => NOISE / 10),
    });
    expect(deviation[0]! / NOISE).toBeGreaterThan(0.7);
    expect(deviation[0]! / NOISE).toBeLessThan(1.3);
  });

  it('a figure without an uncertainty gets the median of the others; without any, the scatter decides', () => {
    const figures = record();
    figures.uncertainty[2] = 0;
    figures.uncertainty[4] = Number.NaN;
    const { deviation } = dailyFigures(figures);
    expect(deviation[2]).toBe(deviation[0]);
    expect(deviation[4]).toBe(deviation[0]);
    const { deviation: bare } = dailyFigures({ ...figures, uncertainty: new Float64Array(DAYS) });
    expect(bare[0]! / NOISE).toBeGreaterThan(0.7);
  });

  it('fewer than six figures are all kept', () => {
    const figures = { ageDays: [1, 2, 3], foulingResistance: [0, 1, 0], uncertainty: [1e-6, 1e-6, 1e-6] };
    expect(dailyFigures(figures).t).toHaveLength(3);
    const none = dailyFigures({ ageDays: [], foulingResistance: [], uncertainty: [] });
    expect(none.t).toHaveLength(0);
    expect(
      dailyFigures({ ageDays: [1], foulingResistance: [0], uncertainty: [0] }).deviation[0],
    ).toBeGreaterThan(0);
  });

  it('unequal lengths and ages out of order, twice or negative are mistakes of the program', () => {
    expect(() => dailyFigures({ ...record(), uncertainty: [1] })).toThrow(RangeError);
    for (const ageDays of [
      [2, 1],
      [1, 1],
      [-1, 0],
    ]) {
      expect(() => dailyFigures({ ageDays, foulingResistance: [0, 0], uncertainty: [1, 1] })).toThrow(
        RangeError,
      );
    }
  });
});
