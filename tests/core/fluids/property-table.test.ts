import { describe, expect, it } from 'vitest';
import { enthalpyOf, makePropertyTable, tableProperty } from '@/lib/core/fluids/property-table';

describe('a table of a property', () => {
  it('is exact for a cubic, with the fewest intervals', () => {
    const cubic = (t: number) => 5 + t * (2 - t * (0.3 - 0.01 * t));
    const table = makePropertyTable(cubic, -10, 30);
    expect(table.intervals).toBe(32);
    for (let t = -10; t <= 30; t += 0.37) expect(tableProperty(table)(t)).toBeCloseTo(cubic(t), 11);
  });

  it('doubles its intervals until it is accurate', () => {
    const steep = (t: number) => Math.exp(t / 5);
    const table = makePropertyTable(steep, 0, 100);
    expect(table.intervals).toBeGreaterThan(32);
    for (let t = 0; t <= 100; t += 0.0173) {
      expect(Math.abs(tableProperty(table)(t) / steep(t) - 1)).toBeLessThan(1e-7);
    }
  });

  it('judges values near a zero against the greatest value', () => {
    const line = tableProperty(makePropertyTable((t) => Math.sin(t / 50), -50, 50));
    expect(Math.abs(line(1e-3) - 2e-5)).toBeLessThan(1e-11);
  });

  it('meets the property at both ends and is not a number beyond them', () => {
    const root = tableProperty(makePropertyTable(Math.sqrt, 5, 151.83624431));
    expect(root(5)).toBeCloseTo(Math.sqrt(5), 14);
    expect(root(151.83624431)).toBeCloseTo(Math.sqrt(151.83624431), 10);
    expect([root(4.9999), root(151.9), root(Number.NaN)]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
  });

  it('refuses a property that is not smooth or not finite', () => {
    expect(() => makePropertyTable((t) => (t > 1 / 3 ? 2 : 1), 0, 1)).toThrow(RangeError);
    expect(() => makePropertyTable(() => Number.NaN, 0, 1)).toThrow(
      'a property cannot be tabulated between 0 and 1 °C: it is not smooth',
    );
  });
});

describe('the enthalpy of a table of specific heat', () => {
  const heat = makePropertyTable((t) => 4000 + t + 100 * Math.cos(t / 40), 0, 150);
  const enthalpy = enthalpyOf(heat, 500);

  it('starts where it is told and is the integral', () => {
    expect(enthalpy(0)).toBe(500);
    for (const t of [3, 77.7, 150]) {
      expect(enthalpy(t) / (500 + 4000 * t + t ** 2 / 2 + 4000 * Math.sin(t / 40))).toBeCloseTo(1, 9);
    }
  });

  it('has the tabulated specific heat as its slope', () => {
    const specificHeat = tableProperty(heat);
    const step = 1e-3;
    for (let t = 1; t < 149; t += 1.31) {
      expect((enthalpy(t + step) - enthalpy(t - step)) / (2 * step) / specificHeat(t)).toBeCloseTo(1, 7);
    }
  });

  it('is not a number outside the table', () => {
    expect([enthalpy(-1), enthalpy(151), enthalpy(Number.NaN)]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
  });
});
