import { describe, expect, it } from 'vitest';
import type { PolynomialProperties } from '@/lib/core/fluids/fluid';
import { integrate } from '@/lib/core/fluids/gauss-legendre';
import { makeGlycol } from '@/lib/core/fluids/glycol';
import { ETHYLENE_GLYCOL } from '@/lib/core/fluids/glycol-tables';
import { makeOil } from '@/lib/core/fluids/oil';
import { makePolynomialFluid } from '@/lib/core/fluids/polynomial-fluid';

const SYRUP: PolynomialProperties = {
  minimum: 10,
  maximum: 90,
  specificHeat: [2500, 4, -0.01],
  density: [1320, -0.5],
  viscosity: null,
  conductivity: [0.35, 8e-4],
};

/** The cubic through four points of a function, as coefficients of t (Newton's divided differences, multiplied out). */
function cubicThrough(
  property: (t: number) => number,
  [a, b, c, d]: [number, number, number, number],
): number[] {
  const divided = (...at: number[]): number =>
    at.length === 1
      ? property(at[0]!)
      : (divided(...at.slice(1)) - divided(...at.slice(0, -1))) / (at.at(-1)! - at[0]!);
  const [f0, f1, f2, f3] = [divided(a), divided(a, b), divided(a, b, c), divided(a, b, c, d)];
  return [
    f0 - f1 * a + f2 * a * b - f3 * a * b * c,
    f1 - f2 * (a + b) + f3 * (a * b + a * c + b * c),
    f2 - f3 * (a + b + c),
    f3,
  ];
}

describe('a fluid stated by polynomials', () => {
  const syrup = makePolynomialFluid('syrup', SYRUP);

  it('is c₀ + c₁·t + c₂·t² at every temperature of its range, and no number outside', () => {
    expect(syrup.specificHeat(50)).toBe(2500 + 200 - 25);
    expect(syrup.density!(20)).toBe(1310);
    expect(syrup.conductivity!(90)).toBeCloseTo(0.422, 12);
    expect(syrup.viscosity).toBeNull();
    for (const property of [syrup.specificHeat, syrup.enthalpy, syrup.density!]) {
      expect([property(9.999), property(90.001), property(Number.NaN)]).toEqual([
        Number.NaN,
        Number.NaN,
        Number.NaN,
      ]);
    }
  });

  it('has the exact integral of its specific heat as enthalpy', () => {
    const byHand = 2500 * 80 + 2 * (90 ** 2 - 10 ** 2) - (0.01 / 3) * (90 ** 3 - 10 ** 3);
    expect(syrup.enthalpy(90) - syrup.enthalpy(10)).toBeCloseTo(byHand, 8);
    // The numerical route.
    expect(syrup.enthalpy(73) - syrup.enthalpy(21)).toBeCloseTo(integrate(syrup.specificHeat, 21, 73), 6);
  });

  it('is the published glycol where it states the glycol’s own cubics', () => {
    const glycol = makeGlycol(ETHYLENE_GLYCOL, 0.4);
    const at = [-20, 15, 60, 100] as [number, number, number, number];
    const same = makePolynomialFluid('glycol by cubics', {
      minimum: -20,
      maximum: 100,
      specificHeat: cubicThrough(glycol.specificHeat, at),
      density: cubicThrough(glycol.density!, at),
      viscosity: null,
      conductivity: cubicThrough(glycol.conductivity!, at),
    });
    for (let t = -20; t <= 100; t += 1.7) {
      expect(same.specificHeat(t) / glycol.specificHeat(t)).toBeCloseTo(1, 10);
      expect(same.density!(t) / glycol.density!(t)).toBeCloseTo(1, 10);
      expect(same.conductivity!(t) / glycol.conductivity!(t)).toBeCloseTo(1, 10);
      const gain = same.enthalpy(t) - same.enthalpy(-20);
      expect(Math.abs(gain - (glycol.enthalpy(t) - glycol.enthalpy(-20)))).toBeLessThan(1e-4);
    }
  });

  it('is the oil of Watson & Nelson where it states that straight line', () => {
    const oil = makeOil({ density: 870, characterisationFactor: 11.9, viscosity: null });
    const slope = (oil.specificHeat(200) - oil.specificHeat(0)) / 200;
    const line = makePolynomialFluid('oil by a line', {
      ...SYRUP,
      minimum: 0,
      maximum: 200,
      specificHeat: [oil.specificHeat(0), slope],
    });
    expect(line.enthalpy(180) - line.enthalpy(35)).toBeCloseTo(oil.enthalpy(180) - oil.enthalpy(35), 5);
  });
});

describe('polynomials that cannot be are refused in words', () => {
  const refused: [string, Partial<PolynomialProperties>, string][] = [
    [
      'below zero at an end',
      { density: [100, -2] },
      'glue: density is -80 kg/m³ at 90 °C; it must be above 0 from 10 to 90 °C',
    ],
    [
      // (t − 50)² − 1 is below zero between 49 and 51 °C only: no end shows it.
      'below zero between its ends',
      { conductivity: [2499, -100, 1] },
      'glue: conductivity is -1 W/(m·K) at 50 °C; it must be above 0 from 10 to 90 °C',
    ],
    ['zero at one point', { viscosity: [0, 0] }, 'glue: viscosity is 0 Pa·s at 10 °C'],
    ['without coefficients', { specificHeat: [] }, 'glue: specific heat has no coefficients'],
    [
      'not a number',
      { specificHeat: [2000, Number.NaN] },
      'glue: specific heat has a coefficient that is not',
    ],
    ['an empty range', { minimum: 90 }, 'glue: 90 to 90 °C is no range; the first must be the lower one'],
    ['a range the wrong way round', { minimum: 95 }, 'glue: 95 to 90 °C is no range'],
    ['an endless range', { maximum: Number.POSITIVE_INFINITY }, 'is no range'],
    ['a range below absolute zero', { minimum: -300 }, 'glue: -300 °C is below absolute zero'],
  ];

  it.each(refused)('%s', (_title, part, message) => {
    expect(() => makePolynomialFluid('glue', { ...SYRUP, ...part })).toThrow(RangeError);
    expect(() => makePolynomialFluid('glue', { ...SYRUP, ...part })).toThrow(message);
  });
});
