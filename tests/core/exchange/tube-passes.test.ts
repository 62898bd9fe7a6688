import { describe, expect, it } from 'vitest';
import { bothMixedEffectiveness, bothMixedPeak } from '@/lib/core/exchange/crossflow-mixed';
import { effectiveness } from '@/lib/core/exchange/effectiveness';
import type { Side } from '@/lib/core/exchange/exchanger';
import { counterCurrentEffectiveness } from '@/lib/core/exchange/pure-flow';
import { shellEffectiveness } from '@/lib/core/exchange/shell-and-tube';
import {
  manyPassEffectiveness,
  manyPassPeak,
  manyPassTransferUnits,
  twoPassTransferUnits,
} from '@/lib/core/exchange/tube-passes';
import { shell } from '../../support/published-arrangements';
import { tubeEffectiveness } from '../../support/shell-boundary-value';

const SIDES = [true, false];
const RATIOS = [0.01, 0.1, 0.3, 0.5, 0.75, 0.9, 1];
const UNITS = [0.05, 0.3, 1, 2, 3, 4, 6, 10];

/** Effectiveness of the smaller stream by the boundary value problem. */
function byBoundaryValues(
  tubePasses: number,
  isSmallerInTubes: boolean,
  { ntu, ratio, isShellInletAtTubeInlet }: { ntu: number; ratio: number; isShellInletAtTubeInlet: boolean },
): number {
  const tubeUnits = isSmallerInTubes ? ntu : ntu * ratio;
  const shellUnits = isSmallerInTubes ? ntu * ratio : ntu;
  const tubes = tubeEffectiveness({ tubePasses, tubeUnits, shellUnits, isShellInletAtTubeInlet });
  return isSmallerInTubes ? tubes : tubes / ratio;
}

describe('the boundary value problem of the tests', () => {
  it('gives counter-current flow for one pass against the shell', () => {
    const one = tubeEffectiveness({
      tubePasses: 1,
      tubeUnits: 2,
      shellUnits: 1.2,
      isShellInletAtTubeInlet: false,
    });
    expect(one).toBeCloseTo(counterCurrentEffectiveness(2, 0.6), 13);
  });
});

describe.each([2, 4, 6, 8, 14])('one shell with %i tube passes', (tubePasses) => {
  it('agrees with the boundary value problem, whichever stream is in the tubes and wherever the shell has its inlet', () => {
    for (const isSmallerInTubes of SIDES) {
      for (const ratio of RATIOS) {
        for (const ntu of UNITS) {
          for (const isShellInletAtTubeInlet of SIDES) {
            const exact = byBoundaryValues(tubePasses, isSmallerInTubes, {
              ntu,
              ratio,
              isShellInletAtTubeInlet,
            });
            const tubeSide = isSmallerInTubes ? 'hot' : 'cold';
            const ours = effectiveness(shell(1, tubePasses, tubeSide), ntu, ratio, 'hot');
            expect(Math.abs(ours - exact)).toBeLessThan(1e-11);
          }
        }
      }
    }
  });
});

describe('shells of four and more tube passes in series', () => {
  it('agree with the boundary value problem of each shell, combined as (z − 1)/(z − Cr)', () => {
    for (const [shells, tubePasses] of [
      [2, 8],
      [3, 18],
    ] as const) {
      for (const ratio of [0.2, 0.8]) {
        const one = byBoundaryValues(tubePasses / shells, false, {
          ntu: 3 / shells,
          ratio,
          isShellInletAtTubeInlet: true,
        });
        // Incropera et al., 6th ed. 2007, eq. 11.31a.
        const z = ((1 - one * ratio) / (1 - one)) ** shells;
        const ours = effectiveness(shell(shells, tubePasses, 'cold'), 3, ratio, 'hot');
        expect(ours).toBeCloseTo((z - 1) / (z - ratio), 12);
      }
    }
  });
});

describe('the formula of any even number of tube passes', () => {
  it('is that of two passes for one pair', () => {
    for (const isSmallerInTubes of SIDES) {
      for (const ratio of RATIOS) {
        for (const ntu of [1e-6, ...UNITS, 200]) {
          const one = { shells: 1, pairs: 1, isSmallerInTubes };
          expect(manyPassEffectiveness(one, ntu, ratio) / shellEffectiveness(one, ntu, ratio)).toBeCloseTo(
            1,
            14,
          );
        }
      }
    }
  });

  it('is that of Shah & Sekulić, 2003, Table 3.6, for two pairs', () => {
    for (const ratio of RATIOS) {
      for (const ntu of UNITS) {
        // Stream 1 is the shell's, the smaller one here.
        const D = Math.sqrt(4 + ratio * ratio);
        const P1 =
          4 / (2 * (1 + ratio) + D / Math.tanh((D * ntu) / 4) + ratio * Math.tanh((ratio * ntu) / 4));
        const ours = manyPassEffectiveness({ pairs: 2, isSmallerInTubes: false }, ntu, ratio);
        expect(ours).toBeCloseTo(P1, 15);
      }
    }
  });

  it('tends to cross-flow with both fluids mixed as the passes grow, with the square of their number', () => {
    for (const isSmallerInTubes of SIDES) {
      for (const ratio of [0.3, 1]) {
        for (const ntu of [0.5, 2, 8]) {
          const mixed = bothMixedEffectiveness(ntu, ratio);
          const miss = (pairs: number) =>
            manyPassEffectiveness({ pairs, isSmallerInTubes }, ntu, ratio) - mixed;
          expect(Math.abs(miss(1e7))).toBeLessThan(1e-13);
          expect(miss(40) / miss(80)).toBeCloseTo(4, 1);
        }
        expect(manyPassPeak({ pairs: 1e6, isSmallerInTubes }, ratio)).toBeCloseTo(bothMixedPeak(ratio), 6);
      }
    }
  });

  it('falls with every pair of passes more, at any NTU', () => {
    for (const isSmallerInTubes of SIDES) {
      for (const ratio of RATIOS) {
        for (const ntu of UNITS) {
          const reached = [1, 2, 3, 4, 12].map((pairs) =>
            manyPassEffectiveness({ pairs, isSmallerInTubes }, ntu, ratio),
          );
          expect(reached).toEqual([...reached].sort((a, b) => b - a));
        }
      }
    }
  });

  it('has its peak where it is greatest on a fine grid', () => {
    for (const isSmallerInTubes of SIDES) {
      for (const pairs of [2, 3, 12]) {
        for (const ratio of [0.02, 0.2, 0.6, 1]) {
          const passes = { pairs, isSmallerInTubes };
          const grid = Array.from({ length: 6000 }, (_, i) => (i + 1) / 100);
          const values = grid.map((ntu) => manyPassEffectiveness(passes, ntu, ratio));
          const best = grid[values.indexOf(Math.max(...values))]!;
          expect(Math.abs(manyPassPeak(passes, ratio) - best)).toBeLessThan(0.02);
        }
      }
    }
  });

  it('has a peak, and an inverse up to it, also where the other stream hardly changes', () => {
    for (const isSmallerInTubes of SIDES) {
      for (const pairs of [2, 5, 12]) {
        for (const ratio of [1e-3, 1e-7, 1e-11, 1e-15, 2 ** -57]) {
          const passes = { pairs, isSmallerInTubes };
          const peak = manyPassPeak(passes, ratio);
          expect(peak).toBeGreaterThan(16);
          expect(peak).toBeLessThan(60);
          const most = manyPassEffectiveness(passes, peak, ratio);
          for (const ntu of [0.5, 5, 15, 25]) {
            const reached = manyPassEffectiveness(passes, ntu, ratio);
            if (ntu > peak || reached >= most) continue;
            const back = manyPassTransferUnits(passes, reached, ratio);
            expect(Math.abs(manyPassEffectiveness(passes, back, ratio) - reached)).toBeLessThan(1e-15);
          }
        }
      }
    }
  });

  it('has an inverse between the limit for infinite NTU and the maximum: the smaller of two NTU', () => {
    const passes = { pairs: 2, isSmallerInTubes: false };
    const limit = manyPassEffectiveness(passes, Number.POSITIVE_INFINITY, 1);
    const most = manyPassEffectiveness(passes, manyPassPeak(passes, 1), 1);
    expect(limit).toBeCloseTo(2 / (2.5 + Math.sqrt(1.25)), 15);
    for (const share of [0, 0.3, 0.9, 0.999]) {
      const wanted = limit + share * (most - limit);
      const ntu = manyPassTransferUnits(passes, wanted, 1);
      expect(ntu).toBeLessThan(manyPassPeak(passes, 1));
      expect(manyPassEffectiveness(passes, ntu, 1)).toBeCloseTo(wanted, 14);
    }
    expect(manyPassTransferUnits(passes, most, 1)).toBeCloseTo(manyPassPeak(passes, 1), 12);
    expect(manyPassTransferUnits(passes, most + 1e-12, 1)).toBeNaN();
  });

  it('needs at least the NTU of two passes', () => {
    for (const reached of [0.1, 0.4, 0.55]) {
      expect(manyPassTransferUnits({ pairs: 2, isSmallerInTubes: true }, reached, 1)).toBeGreaterThan(
        twoPassTransferUnits(reached, 1),
      );
    }
  });
});

describe('the stream in the tubes', () => {
  it('matters for four passes and more, not for two, and not at equal capacity rates', () => {
    const reached = (tubePasses: number, tubeSide: Side, ratio: number) =>
      effectiveness(shell(1, tubePasses, tubeSide), 10, ratio, 'hot');
    // Both values from tests/published/data/exchanger-arrangements.json, NTU 10, Cr 0.5.
    expect(reached(4, 'hot', 0.5) - reached(4, 'cold', 0.5)).toBeCloseTo(0.7402976372 - 0.7291509887, 9);
    expect(reached(2, 'hot', 0.5)).toBe(reached(2, 'cold', 0.5));
    expect(reached(4, 'hot', 1)).toBe(reached(4, 'cold', 1));
  });
});
