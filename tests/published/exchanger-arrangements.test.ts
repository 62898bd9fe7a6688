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

/**
 * Cases of the file that no unit of the program has, each by a formula of its own: plate 2-2 with co-current passes put together from the
 * blocks that the program has, and the usual approximation of cross-flow, which it does not use.
 */
const RELATED: Record<string, (ntu: number, ratio: number) => number> = {
  'plate-2-2-overall-counter-passes-parallel': (ntu, ratio) => {
    const pass = coCurrentEffectiveness(ntu / 2, ratio);
    return counterCurrentEffectiveness(2 * counterCurrentTransferUnits(pass, ratio), ratio);
  },
  'plate-2-2-overall-parallel-passes-parallel': (ntu, ratio) => {
    const pass = coCurrentEffectiveness(ntu / 2, ratio);
    // The second block sees what the first has left of the difference.
    return pass + pass * (1 - pass * (1 + ratio));
  },
  'crossflow-neither-mixed-approximate': approximateCrossflow,
};

/** Incropera et al., 6th ed. 2007, Table 11.3, eq. 11.32; its limit at Cr = 0. */
function approximateCrossflow(ntu: number, ratio: number): number {
  if (ratio === 0) return -Math.expm1(-ntu);
  return -Math.expm1((ntu ** 0.22 / ratio) * Math.expm1(-ratio * ntu ** 0.78));
}

function published(id: string) {
  const found = reference.cases.find((each) => each.id === id);
  if (found === undefined) throw new Error(`no case ${id}`);
  return found;
}

/** Largest difference between a formula and a case over the whole grid, and where it is. */
function largestDifference(id: string, formula: (ntu: number, ratio: number) => number) {
  let largest = { difference: 0, ntu: Number.NaN, ratio: Number.NaN };
  published(id).effectiveness.forEach((row, i) => {
    row.forEach((value, j) => {
      const [ntu, ratio] = [reference.NTU[i]!, reference.Cr[j]!];
      const difference = Math.abs(formula(ntu, ratio) - value);
      if (!(difference <= largest.difference)) largest = { difference, ntu, ratio };
    });
  });
  return largest;
}

/** The arrangement with the hot stream the smaller, and its mirror image. */
function bothWays(arrangement: Arrangement): [Arrangement, Side][] {
  return [
    [arrangement, 'hot'],
    [mirrored(arrangement), 'cold'],
  ];
}

describe('published effectiveness', () => {
  it('is checked for every case of the file', () => {
    expect([...Object.keys(CASES), ...Object.keys(RELATED)].sort()).toEqual(
      reference.cases.map((each) => each.id).sort(),
    );
  });

  it.each(Object.entries(CASES))('agrees at 14 NTU by 7 Cr: %s', (id, arrangement) => {
    for (const [each, side] of bothWays(arrangement)) {
      const worst = largestDifference(id, (n, r) => effectiveness(each, n, r, side));
      expect(worst.difference).toBeLessThan(TOLERANCE);
    }
  });

  it.each(Object.entries(RELATED))('agrees at 14 NTU by 7 Cr: %s', (id, formula) => {
    expect(largestDifference(id, formula).difference).toBeLessThan(TOLERANCE);
  });

  it('does not depend on the flow of a 2-1 plate unit', () => {
    for (const smaller of ['hot', 'cold'] as const) {
      expect(effectiveness(plate(2, 1, 'parallel'), 2, 0.6, smaller)).toBe(
        effectiveness(plate(2, 1, 'counter'), 2, 0.6, smaller),
      );
    }
  });

  it('of plate 2-2 with both overall and passes co-current is co-current flow', () => {
    const id = 'plate-2-2-overall-parallel-passes-parallel';
    const worst = largestDifference(id, (n, r) => effectiveness({ kind: 'co-current' }, n, r, 'hot'));
    expect(worst.difference).toBeLessThan(TOLERANCE);
  });

  it('of cross-flow, neither mixed, is as far from the usual approximation as published, and where', () => {
    const id = 'crossflow-neither-mixed-approximate';
    const stated = published(id).approximation_error!;
    const exact = (n: number, r: number) => effectiveness(crossflow('none'), n, r, 'hot');
    const worst = largestDifference(id, exact);
    expect(worst.difference).toBeCloseTo(stated.largest_absolute, 5);
    expect([worst.ntu, worst.ratio]).toEqual([stated.at_NTU, stated.at_Cr]);
    const { at_NTU: ntu, at_Cr: ratio } = stated;
    const apart = Math.abs(approximateCrossflow(ntu, ratio) - exact(ntu, ratio));
    expect(apart).toBeCloseTo(stated.largest_absolute, 5);
  });

  it('of four tube passes lies below the two-pass formula by less than 0.004 up to NTU 2 and 0.037 at NTU 10', () => {
    for (const id of ['shell-1-4-exact-cmin-on-shell', 'shell-1-4-exact-cmin-on-tubes']) {
      const twoPass = (n: number, r: number) => effectiveness(CASES['shell-1-2']!, n, r, 'hot');
      const worst = largestDifference(id, twoPass);
      expect(worst.difference).toBeLessThan(0.037);
      expect(worst.ntu).toBe(10);
      published(id).effectiveness.forEach((row, i) => {
        const ntu = reference.NTU[i]!;
        row.forEach((value, j) => {
          const above = twoPass(ntu, reference.Cr[j]!) - value;
          expect(above).toBeGreaterThan(-TOLERANCE);
          if (ntu <= 2) expect(above).toBeLessThan(0.004);
        });
      });
    }
  });
});

describe('published inverses', () => {
  it.each(reference.inverse)('$arrangement at Cr $Cr and effectiveness $effectiveness: NTU $NTU', (row) => {
    const arrangement = CASES[row.arrangement]!;
    for (const [each, side] of bothWays(arrangement)) {
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

  it.each(reference.cases.filter((each) => each.not_monotonic !== undefined).map(({ id }) => id))(
    'of %s is its published largest effectiveness, at the published NTU, and it falls again as published',
    (id) => {
      const { largest_effectiveness, at_NTU, effectiveness_at_NTU_10000 } = published(id).not_monotonic!;
      const maximum = maximumEffectiveness(CASES[id]!, 1, 'hot');
      expect(maximum).toBeCloseTo(largest_effectiveness, String(largest_effectiveness).length - 2);
      // An effectiveness is flat at its peak: the NTU found there is good to half the digits.
      expect(numberOfTransferUnits(CASES[id]!, maximum, 1, 'hot')).toBeCloseTo(at_NTU, 4);
      expect(effectiveness(CASES[id]!, 10_000, 1, 'hot')).toBeCloseTo(effectiveness_at_NTU_10000, 7);
      // The rule of the file: the smaller of two NTU, and an effectiveness above the maximum is impossible.
      expect(numberOfTransferUnits(CASES[id]!, maximum - 1e-3, 1, 'hot')).toBeLessThan(at_NTU);
      expect(numberOfTransferUnits(CASES[id]!, maximum + 1e-6, 1, 'hot')).toBeNaN();
    },
  );

  it('has the peak of both fluids mixed at NTU 2.9829 for Cr = 1', () => {
    expect(bothMixedPeak(1)).toBeCloseTo(2.9829, 4);
  });
});
