import { describe, expect, it } from 'vitest';
import type { Arrangement } from '@/lib/core/exchange/exchanger';
import {
  capacityRatio,
  conductanceFromDuty,
  conductanceFromMeanDifference,
  outletDuty,
  smallerSide,
} from '@/lib/core/exchange/rating';

const counter: Arrangement = { kind: 'counter-current' };
const inlets = { arrangement: counter, hotIn: 50, coldIn: 30, hotCapacityRate: 1000, coldCapacityRate: 1000 };

describe('rating a unit at given inlets', () => {
  it('takes the smaller capacity rate, the hot one where they are equal', () => {
    expect(smallerSide(1, 2)).toBe('hot');
    expect(smallerSide(2, 1)).toBe('cold');
    expect(smallerSide(1, 1)).toBe('hot');
    expect(smallerSide(Number.POSITIVE_INFINITY, 1)).toBe('cold');
  });

  it('has the capacity rate ratio 0 with a condensing side and none without a finite rate', () => {
    expect(capacityRatio(1, 2)).toBe(0.5);
    expect(capacityRatio(2, 1)).toBe(0.5);
    expect(capacityRatio(Number.POSITIVE_INFINITY, 5)).toBe(0);
    expect(capacityRatio(Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY)).toBeNaN();
    expect(capacityRatio(0, 0)).toBeNaN();
    expect(capacityRatio(-1, 2)).toBeNaN();
    expect(capacityRatio(Number.NaN, 2)).toBeNaN();
  });

  it('cools 50 to 40 °C against 30 to 40 °C with equal rates and UA of one capacity rate', () => {
    expect(outletDuty({ ...inlets, conductance: 1000 })).toBeCloseTo(10_000, 9);
    expect(conductanceFromDuty({ ...inlets, duty: 10_000 })).toBeCloseTo(1000, 9);
  });

  it('takes a condensing side as an infinite capacity rate: Q = C·ΔT·(1 − exp(−UA/C)) in every arrangement', () => {
    const duty = 1000 * 20 * (1 - Math.exp(-2));
    const arrangements: Arrangement[] = [
      counter,
      { kind: 'co-current' },
      { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2, tubeSide: 'cold' },
      { kind: 'crossflow', mixed: 'none' },
      { kind: 'crossflow', mixed: 'both' },
      { kind: 'plate', hotPasses: 2, coldPasses: 1, flow: 'counter' },
    ];
    for (const arrangement of arrangements) {
      const unit = { ...inlets, arrangement, hotCapacityRate: Number.POSITIVE_INFINITY };
      expect(outletDuty({ ...unit, conductance: 2000 })).toBeCloseTo(duty, 9);
      expect(conductanceFromDuty({ ...unit, duty })).toBeCloseTo(2000, 8);
    }
  });

  it('transfers nothing with a stream at rest, without conductance, or without a difference', () => {
    expect(outletDuty({ ...inlets, hotCapacityRate: 0, conductance: 1000 })).toBe(0);
    expect(outletDuty({ ...inlets, coldCapacityRate: 0, conductance: 1000 })).toBe(0);
    expect(outletDuty({ ...inlets, conductance: 0 })).toBe(0);
    expect(outletDuty({ ...inlets, coldIn: 50, conductance: 1000 })).toBe(0);
  });

  it('has no answer for rates or conductances that are not numbers of their kind', () => {
    expect(outletDuty({ ...inlets, hotCapacityRate: 0, coldCapacityRate: 0, conductance: 1000 })).toBeNaN();
    expect(outletDuty({ ...inlets, hotCapacityRate: Number.NaN, conductance: 1000 })).toBeNaN();
    expect(outletDuty({ ...inlets, conductance: -1 })).toBeNaN();
    expect(conductanceFromDuty({ ...inlets, duty: 20_001 })).toBeNaN();
    expect(conductanceFromDuty({ ...inlets, duty: -1 })).toBeNaN();
    expect(conductanceFromDuty({ ...inlets, coldIn: 50, duty: 1 })).toBeNaN();
  });

  it('has no conductance by the mean difference where that or the correction is not positive', () => {
    expect(conductanceFromMeanDifference(1000, 10)).toBe(100);
    expect(conductanceFromMeanDifference(1000, 10, 0.8)).toBe(125);
    for (const bad of [0, -1, Number.NaN]) {
      expect(conductanceFromMeanDifference(1000, bad)).toBeNaN();
      expect(conductanceFromMeanDifference(1000, 10, bad)).toBeNaN();
    }
  });
});
