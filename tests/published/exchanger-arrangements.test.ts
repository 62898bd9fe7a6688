import { describe, expect, it } from 'vitest';
import { bothMixedPeak } from '@/lib/core/exchange/crossflow-mixed';
import { effectiveness } from '@/lib/core/exchange/effectiveness';
import type { Arrangement, Side } from '@/lib/core/exchange/exchanger';
import { maximumEffectiveness } from '@/lib/core/exchange/maximum-effectiveness';
import {
  coCurrentEffectiveness,
  counterCurrentEffectiveness,
  counterCurrentTransferUnits,
} from '@/lib/core/exchange/pure-flow';
import { numberOfTransferUnits } from '@/lib/core/exchange/transfer-units';
import { CASES, crossflow, mirrored, plate, reference, TOLERANCE } from '../support/published-arrangements';

/** Cases of the file that no arrangement of the program is: each has its own test below. */
const RELATED = [
  'shell-1-4-exact-cmin-on-shell',
  'shell-1-4-exact-cmin-on-tubes',
  'crossflow-neither-mixed-approximate',
  'plate-2-2-overall-counter-passes-parallel',
  'plate-2-2-overall-parallel-passes-parallel',
];

function published(id: string) {
  const found = reference.cases.find((each) => each.id === id);
  if (found === undefined) throw new Error(`no case ${id}`);
  return found;
}

/** Largest difference between a formula and a case over the whole grid. */
function largestDifference(id: string, formula: (ntu: number, ratio: number) => number): number {
  let largest = 0;
  published(id).effectiveness.forEach((row, i) => {
    row.forEach((value, j) => {
      const difference = Math.abs(formula(reference.NTU[i]!, reference.Cr[j]!) - value);
      largest = Math.max(largest, difference);
    });
  });
  return largest;
}

describe('published effectiveness', () => {
  it('is checked for every case of the file', () => {
    expect([...Object.keys(CASES), ...RELATED].sort()).toEqual(reference.cases.map((each) => each.id).sort());
  });

  it.each(Object.entries(CASES))('agrees at 14 NTU by 7 Cr: %s', (id, arrangement) => {
    expect(largestDifference(id, (n, r) => effectiveness(arrangement, n, r, 'hot'))).toBeLessThan(TOLERANCE);
    expect(largestDifference(id, (n, r) => effectiveness(mirrored(arrangement), n, r, 'cold'))).toBeLessThan(
      TOLERANCE,
    );
  });

  it('does not depend on the flow of a 2-1 plate unit', () => {
    for (const smaller of ['hot', 'cold'] as const) {
      expect(effectiveness(plate(2, 1, 'parallel'), 2, 0.6, smaller)).toBe(
        effectiveness(plate(2, 1, 'counter'), 2, 0.6, smaller),
      );
    }
  });

  it('composes plate 2-2 with co-current passes from two co-current blocks', () => {
    const counterOfParallel = (n: number, r: number) => {
      const pass = coCurrentEffectiveness(n / 2, r);
      return counterCurrentEffectiveness(2 * counterCurrentTransferUnits(pass, r), r);
    };
    expect(largestDifference('plate-2-2-overall-counter-passes-parallel', counterOfParallel)).toBeLessThan(
      TOLERANCE,
    );
    expect(
      largestDifference('plate-2-2-overall-parallel-passes-parallel', coCurrentEffectiveness),
    ).toBeLessThan(TOLERANCE);
  });

  it('of four tube passes by the two-pass formula reads up to 0.037 above the exact one at NTU 10 (stated in its docstring)', () => {
    const formula = (n: number, r: number) =>
      effectiveness({ kind: 'shell-and-tube', shellPasses: 1, tubePasses: 4 }, n, r, 'hot');
    expect(largestDifference('shell-1-4-exact-cmin-on-shell', formula)).toBeLessThan(0.037);
    expect(largestDifference('shell-1-4-exact-cmin-on-shell', formula)).toBeGreaterThan(0.036);
    expect(largestDifference('shell-1-4-exact-cmin-on-tubes', formula)).toBeLessThan(0.037);
    const upToTwo = (n: number, r: number) => (n <= 2 ? formula(n, r) : Number.NaN);
    const exact = published('shell-1-4-exact-cmin-on-shell').effectiveness;
    reference.NTU.forEach((n, i) => {
      if (n > 2) return;
      reference.Cr.forEach((r, j) => {
        expect(Math.abs(upToTwo(n, r) - exact[i]![j]!)).toBeLessThan(0.004);
      });
    });
  });

  it('of cross-flow, neither mixed, differs from the usual approximation by 0.01945, as published', () => {
    const difference = largestDifference('crossflow-neither-mixed-approximate', (n, r) =>
      effectiveness(crossflow('none'), n, r, 'hot'),
    );
    expect(difference).toBeCloseTo(0.01945, 5);
  });
});

describe('published inverses', () => {
  it.each(reference.inverse)('$arrangement at Cr $Cr and effectiveness $effectiveness: NTU $NTU', (row) => {
    const arrangement = CASES[row.arrangement]!;
    for (const [each, side] of [
      [arrangement, 'hot'],
      [mirrored(arrangement), 'cold'],
    ] as [Arrangement, Side][]) {
      const ntu = numberOfTransferUnits(each, row.effectiveness, row.Cr, side);
      if (row.NTU === null) expect(ntu).toBeNaN();
      else expect(Math.abs(ntu - row.NTU)).toBeLessThan(TOLERANCE);
    }
  });

  it.each(Object.entries(CASES))(
    'reproduces the published effectiveness it was given: %s',
    (id, arrangement) => {
      published(id).effectiveness.forEach((row, i) => {
        row.forEach((value, j) => {
          const ratio = reference.Cr[j]!;
          // Rounding to ten digits can lift a value to the limit itself.
          if (value >= maximumEffectiveness(arrangement, ratio, 'hot')) return;
          const ntu = numberOfTransferUnits(arrangement, value, ratio, 'hot');
          expect(Math.abs(effectiveness(arrangement, ntu, ratio, 'hot') - value)).toBeLessThan(1e-12);
          const slope = effectiveness(arrangement, reference.NTU[i]! * 1.001, ratio, 'hot') - value;
          // Where a thousandth more NTU still shows on the rising branch, the NTU itself must come back.
          if (slope > 1e-5) expect(Math.abs(ntu / reference.NTU[i]! - 1)).toBeLessThan(1e-6);
        });
      });
    },
  );
});

describe('published limits', () => {
  it('is 1 − exp(−NTU) at Cr = 0 in every arrangement', () => {
    for (const arrangement of Object.values(CASES)) {
      expect(effectiveness(arrangement, 1, 0, 'hot')).toBeCloseTo(0.632120558829, 12);
      expect(effectiveness(arrangement, 3, 0, 'cold')).toBeCloseTo(0.950212931632, 12);
      expect(maximumEffectiveness(arrangement, 0, 'hot')).toBe(1);
      expect(numberOfTransferUnits(arrangement, 0.632120558829, 0, 'hot')).toBeCloseTo(1, 11);
    }
  });

  it('loses no digit as Cr goes to 1 in counter-current flow', () => {
    const counter = CASES['counter-current']!;
    expect(effectiveness(counter, 9, 1, 'hot')).toBeCloseTo(0.9, 15);
    expect(effectiveness(counter, 3, 0.999999999, 'hot')).toBeCloseTo(0.75000000028125, 14);
    expect(effectiveness(counter, 3, 0.999999999999, 'hot')).toBeCloseTo(0.75000000000028, 14);
  });

  it.each([
    ['co-current', 1, 0.5],
    ['co-current', 0.6, 0.625],
    ['shell-1-2', 1, 0.585786437627],
    ['shell-2-4', 1, 0.738796125036],
    ['crossflow-cmin-mixed', 0.7, 0.760348963558],
    ['crossflow-cmax-mixed', 0.7, 0.719163851727],
    ['plate-2-1-cmin-on-1-pass-side', 1, 0.666666666667],
    ['plate-2-1-cmin-on-2-pass-side', 1, 0.666666666667],
  ])('of %s at Cr = %f is %f, and nothing lies above it', (id, ratio, limit) => {
    const arrangement = CASES[id]!;
    expect(maximumEffectiveness(arrangement, ratio, 'hot')).toBeCloseTo(limit, 11);
    expect(effectiveness(arrangement, 1000, ratio, 'hot')).toBeCloseTo(limit, 11);
    expect(numberOfTransferUnits(arrangement, limit - 1e-3, ratio, 'hot')).toBeGreaterThan(2);
    expect(numberOfTransferUnits(arrangement, limit + 1e-3, ratio, 'hot')).toBeNaN();
  });

  it.each(['crossflow-both-mixed', 'plate-2-2-overall-parallel-passes-counter'])(
    'of %s is its published largest effectiveness, at the published NTU',
    (id) => {
      const { largest_effectiveness, at_NTU } = published(id).not_monotonic!;
      const digits = String(largest_effectiveness).length - 2;
      const maximum = maximumEffectiveness(CASES[id]!, 1, 'hot');
      expect(maximum).toBeCloseTo(largest_effectiveness, digits);
      // An effectiveness is flat at its peak: the NTU found there is good to half the digits.
      expect(numberOfTransferUnits(CASES[id]!, maximum, 1, 'hot')).toBeCloseTo(at_NTU, 4);
    },
  );

  it('has the peak of both fluids mixed at NTU 2.9829 for Cr = 1', () => {
    expect(bothMixedPeak(1)).toBeCloseTo(2.9829, 4);
  });
});
