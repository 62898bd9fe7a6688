import { describe, expect, it } from 'vitest';
import { correctionFactor, shellCorrection } from '@/lib/core/exchange/correction';
import { reference, shell } from '../support/published-arrangements';
import { testChecks } from '../support/table-test';
import { correctionByEffectiveness, meanDifferenceChecks } from './checks/mean-difference';

describe('published mean differences and correction factors', () => {
  testChecks(meanDifferenceChecks());

  it.each(reference.F_shell_limits)(
    '$shells shells at R = $R reach P = $P_limit and no more',
    ({ shells: count, R, P_limit }) => {
      expect(shellCorrection(R, P_limit - 1e-6, count)).toBeGreaterThan(0);
      expect(shellCorrection(R, P_limit + 1e-6, count)).toBeNaN();
      expect(correctionByEffectiveness(shell(count), R, P_limit + 1e-6)).toBeNaN();
    },
  );

  it('is 1 in counter-current flow, without a duty, and with a condensing side', () => {
    expect(correctionFactor({ kind: 'counter-current' }, 0.7, 0.8, 'hot')).toBe(1);
    expect(correctionFactor(shell(1), 0, 0.8, 'hot')).toBe(1);
    expect(correctionFactor(shell(1), 0.7, 0, 'hot')).toBeCloseTo(1, 15);
  });
});
