import { describe, expect, it } from 'vitest';
import { bothMixedEffectiveness, bothMixedPeak } from '@/lib/core/exchange/crossflow-mixed';
import { crossflowUnmixedEffectiveness, LARGEST_NTU } from '@/lib/core/exchange/crossflow-unmixed';
import { effectiveness, NEGLIGIBLE_RATIO } from '@/lib/core/exchange/effectiveness';
import type { Arrangement } from '@/lib/core/exchange/exchanger';
import { maximumEffectiveness } from '@/lib/core/exchange/maximum-effectiveness';
import { solveTransferUnits } from '@/lib/core/exchange/solve-transfer-units';
import { numberOfTransferUnits } from '@/lib/core/exchange/transfer-units';
import { ARRANGEMENTS } from '../../support/arrangements';

const RATIOS = [0, 1e-300, 1e-18, 1e-9, 0.01, 0.3, 0.5, 0.75, 1 - 1e-12, 1 - 2 ** -53, 1];
const UNITS = [0, 1e-300, 1e-12, 0.001, 0.1, 1, 3, 10, 50, 100, 400, 1000];

describe.each(ARRANGEMENTS)('$name', ({ arrangement }) => {
  it('has a finite effectiveness from 0 to its maximum for NTU from 0 to 1000 and every Cr', () => {
    for (const side of ['hot', 'cold'] as const) {
      for (const ratio of RATIOS) {
        const maximum = maximumEffectiveness(arrangement, ratio, side);
        expect(maximum).toBeGreaterThanOrEqual(0.5 - 1e-15);
        expect(maximum).toBeLessThanOrEqual(1);
        for (const ntu of UNITS) {
          const reached = effectiveness(arrangement, ntu, ratio, side);
          expect(reached).toBeGreaterThanOrEqual(0);
          expect(reached).toBeLessThanOrEqual(maximum + 4e-16);
        }
      }
    }
  });

  it('is NTU itself at very small NTU, and 0 at 0', () => {
    for (const ratio of RATIOS) {
      expect(effectiveness(arrangement, 0, ratio, 'hot')).toBe(0);
      expect(effectiveness(arrangement, 1e-12, ratio, 'hot') / 1e-12).toBeCloseTo(1, 11);
      expect(effectiveness(arrangement, 1e-300, ratio, 'hot') / 1e-300).toBeCloseTo(1, 14);
    }
  });

  it('has an inverse that is 0 for 0, a number below the limit and none above it or below 0', () => {
    for (const side of ['hot', 'cold'] as const) {
      for (const ratio of RATIOS) {
        const maximum = maximumEffectiveness(arrangement, ratio, side);
        expect(numberOfTransferUnits(arrangement, 0, ratio, side)).toBe(0);
        for (const share of [1e-300, 1e-9, 0.2, 0.5, 0.9, 0.97]) {
          const ntu = numberOfTransferUnits(arrangement, share * maximum, ratio, side);
          expect(effectiveness(arrangement, ntu, ratio, side) / maximum / share).toBeCloseTo(1, 13);
        }
        for (const beyond of [-1e-9, -1, maximum + 1e-9, 1.2, 5, Number.POSITIVE_INFINITY, Number.NaN]) {
          expect(numberOfTransferUnits(arrangement, beyond, ratio, side)).toBeNaN();
        }
      }
    }
  });

  it('has no value for an NTU or a capacity rate ratio that cannot be', () => {
    for (const ratio of [-0.1, 1.1, Number.NaN]) {
      expect(effectiveness(arrangement, 1, ratio, 'hot')).toBeNaN();
      expect(maximumEffectiveness(arrangement, ratio, 'hot')).toBeNaN();
      expect(numberOfTransferUnits(arrangement, 0.3, ratio, 'hot')).toBeNaN();
    }
    expect(effectiveness(arrangement, -1, 0.5, 'hot')).toBeNaN();
    expect(effectiveness(arrangement, Number.NaN, 0.5, 'hot')).toBeNaN();
  });

  it('does not jump where a capacity rate ratio becomes negligible', () => {
    for (const ntu of [0.1, 1, 5]) {
      const below = effectiveness(arrangement, ntu, NEGLIGIBLE_RATIO * 0.99, 'hot');
      expect(effectiveness(arrangement, ntu, NEGLIGIBLE_RATIO * 1.01, 'hot')).toBeCloseTo(below, 14);
    }
  });
});

describe('arrangements whose effectiveness falls again', () => {
  const falling: Arrangement[] = [
    { kind: 'crossflow', mixed: 'both' },
    { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 4, tubeSide: 'hot' },
    { kind: 'shell-and-tube', shellPasses: 2, tubePasses: 12, tubeSide: 'cold' },
    { kind: 'plate', hotPasses: 2, coldPasses: 2, flow: 'parallel' },
  ];

  it('reach their maximum at a finite NTU, which is the inverse of the maximum', () => {
    for (const arrangement of falling) {
      for (const ratio of [0.2, 0.5, 1]) {
        const maximum = maximumEffectiveness(arrangement, ratio, 'hot');
        const peak = numberOfTransferUnits(arrangement, maximum, ratio, 'hot');
        expect(effectiveness(arrangement, peak, ratio, 'hot')).toBeCloseTo(maximum, 14);
        expect(effectiveness(arrangement, peak * 1.3, ratio, 'hot')).toBeLessThan(maximum);
        expect(effectiveness(arrangement, peak / 1.3, ratio, 'hot')).toBeLessThan(maximum);
      }
    }
  });

  it('give the smaller of two NTU', () => {
    for (const arrangement of falling) {
      const peak = numberOfTransferUnits(
        arrangement,
        maximumEffectiveness(arrangement, 0.8, 'hot'),
        0.8,
        'hot',
      );
      const beyond = effectiveness(arrangement, peak * 2, 0.8, 'hot');
      expect(numberOfTransferUnits(arrangement, beyond, 0.8, 'hot')).toBeLessThan(peak);
    }
  });

  it('are finite at NTU 0 and at Cr 0 by their own formula', () => {
    expect(bothMixedEffectiveness(0, 0.5)).toBe(0);
    expect(bothMixedEffectiveness(1, 0)).toBeCloseTo(1 - Math.exp(-1), 15);
  });

  it('has the peak of both fluids mixed where the slope changes sign, also at a very small Cr', () => {
    for (const ratio of [1e-12, 1e-6, 0.01, 0.5, 1]) {
      const peak = bothMixedPeak(ratio);
      expect(peak).toBeGreaterThan(2.9);
      expect(peak).toBeLessThan(70);
    }
  });
});

describe('cross-flow with neither fluid mixed', () => {
  it.each([
    [1, 0.4762223881973913],
    [10, 0.8227134659318853],
    [100, 0.9436163366560552],
    [1000, 0.9821598740206161],
  ])('at Cr = 1 and NTU %d is 1 − exp(−2·NTU)·(I₀ + I₁)(2·NTU), worked out in 40 digits', (ntu, value) => {
    // I₀ and I₁ by mpmath.
    expect(Math.abs(crossflowUnmixedEffectiveness(ntu, 1) / value - 1)).toBeLessThan(
      ntu > 100 ? 4e-14 : 3e-15,
    );
  });

  it('takes an NTU above 1000 as 1000', () => {
    expect(crossflowUnmixedEffectiveness(1e9, 1)).toBe(crossflowUnmixedEffectiveness(LARGEST_NTU, 1));
  });

  it('has no inverse beyond NTU 1000', () => {
    const most = crossflowUnmixedEffectiveness(LARGEST_NTU, 1);
    expect(most).toBeGreaterThan(0.98);
    const below = numberOfTransferUnits({ kind: 'crossflow', mixed: 'none' }, most - 1e-6, 1, 'hot');
    expect(below).toBeGreaterThan(999);
    expect(below).toBeLessThan(LARGEST_NTU);
    expect(numberOfTransferUnits({ kind: 'crossflow', mixed: 'none' }, most + 1e-6, 1, 'hot')).toBeNaN();
    expect(numberOfTransferUnits({ kind: 'crossflow', mixed: 'none' }, 0.9999, 1, 'hot')).toBeNaN();
  });
});

describe('solving for NTU in a bracket', () => {
  it('finds the root of a rising function', () => {
    expect(solveTransferUnits((ntu) => ntu ** 0.7, 3, { low: 1, largest: 100 })).toBeCloseTo(
      3 ** (1 / 0.7),
      12,
    );
  });

  it('finds it where the function is infinite beyond, or flat after a bend', () => {
    const wall = (ntu: number) => (ntu < 5 ? ntu * 0.9 : Number.POSITIVE_INFINITY);
    expect(solveTransferUnits(wall, 4.4, { low: 1, largest: 1000 })).toBeCloseTo(4.4 / 0.9, 12);
    const bend = (ntu: number) => (ntu < 2 ? ntu : 2 + (ntu - 2) * 1e-3);
    expect(solveTransferUnits(bend, 2.01, { low: 1.5, largest: 1000 })).toBeCloseTo(12, 8);
  });

  it('finds the place of a step', () => {
    const jump = (ntu: number) => (ntu < 7 ? 1 : 3);
    expect(solveTransferUnits(jump, 2, { low: 1, largest: 1000 })).toBeCloseTo(7, 10);
  });

  it('returns the lower end where that is the root already, and the upper end where only that reaches it', () => {
    expect(solveTransferUnits((ntu) => ntu, 2, { low: 2, largest: 10 })).toBe(2);
    expect(solveTransferUnits((ntu) => (ntu < 10 ? 1 : 2), 2, { low: 2, largest: 10 })).toBe(10);
  });

  it('has no answer where the goal is not reached', () => {
    expect(solveTransferUnits((ntu) => ntu / (1 + ntu), 0.999, { low: 1, largest: 10 })).toBeNaN();
    expect(solveTransferUnits((ntu) => ntu, 20, { low: 20, largest: 10 })).toBeNaN();
  });
});
