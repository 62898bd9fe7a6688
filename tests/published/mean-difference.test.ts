import { describe, expect, it } from 'vitest';
import { correctionFactor, shellCorrection } from '@/lib/core/exchange/correction';
import type { Arrangement } from '@/lib/core/exchange/exchanger';
import { counterCurrentLmtd, logMeanDifference } from '@/lib/core/exchange/lmtd';
import { maximumEffectiveness } from '@/lib/core/exchange/maximum-effectiveness';
import { crossflow, reference, shell, TOLERANCE } from '../support/published-arrangements';

describe('published logarithmic mean differences', () => {
  it.each(reference.lmtd)('$Thi → $Tho against $Tci → $Tco, $flow: $LMTD K', (row) => {
    const given = { hotIn: row.Thi, hotOut: row.Tho, coldIn: row.Tci, coldOut: row.Tco };
    const lmtd =
      row.flow === 'counter'
        ? counterCurrentLmtd(given)
        : logMeanDifference(row.Thi - row.Tci, row.Tho - row.Tco);
    if (row.LMTD === null) expect(lmtd).toBeNaN();
    else expect(Math.abs(lmtd - row.LMTD)).toBeLessThan(1e-9);
  });
});

describe('published correction factors', () => {
  const shells = { '1-2': 1, '2-4': 2, '3-6': 3, '4-8': 4 };

  /** The same point in the terms of ε-NTU: the cold stream's P and R are those of the smaller stream or of the larger one. */
  function byEffectiveness(arrangement: Arrangement, R: number, P: number): number {
    return R <= 1
      ? correctionFactor(arrangement, P, R, 'cold')
      : correctionFactor(arrangement, P * R, 1 / R, 'hot');
  }

  it.each(Object.entries(shells))(
    '%s: both routes give the published F, and none where it is infeasible',
    (id, count) => {
      reference.F_shell.F[id]!.forEach((row, i) => {
        row.forEach((F, j) => {
          const R = reference.F_shell.R[i]!;
          const P = reference.F_shell.P[j]!;
          const byBowman = shellCorrection(R, P, count);
          const byNtu = byEffectiveness(shell(count), R, P);
          if (F === null) {
            expect(byBowman).toBeNaN();
            expect(byNtu).toBeNaN();
            return;
          }
          expect(Math.abs(byBowman - F)).toBeLessThan(TOLERANCE);
          expect(Math.abs(byNtu - F)).toBeLessThan(TOLERANCE);
        });
      });
    },
  );

  it.each(reference.F_shell_limits)(
    '$shells shells at R = $R reach P = $P_limit and no more',
    ({ shells: count, R, P_limit }) => {
      const maximum =
        R <= 1
          ? maximumEffectiveness(shell(count), R, 'cold')
          : maximumEffectiveness(shell(count), 1 / R, 'hot') / R;
      expect(maximum).toBeCloseTo(P_limit, 8);
      expect(shellCorrection(R, P_limit - 1e-6, count)).toBeGreaterThan(0);
      expect(shellCorrection(R, P_limit + 1e-6, count)).toBeNaN();
      expect(byEffectiveness(shell(count), R, P_limit + 1e-6)).toBeNaN();
    },
  );

  it.each(reference.F_crossflow_neither_mixed)(
    'cross-flow, neither mixed, R = $R, P = $P: $F',
    ({ R, P, F }) => {
      expect(Math.abs(byEffectiveness(crossflow('none'), R, P) - F)).toBeLessThan(TOLERANCE);
    },
  );

  it('is 1 in counter-current flow, without a duty, and with a condensing side', () => {
    expect(correctionFactor({ kind: 'counter-current' }, 0.7, 0.8, 'hot')).toBe(1);
    expect(correctionFactor(shell(1), 0, 0.8, 'hot')).toBe(1);
    expect(correctionFactor(shell(1), 0.7, 0, 'hot')).toBeCloseTo(1, 15);
  });
});
