import { describe, expect, it } from 'vitest';
import { effectiveness } from '@/lib/core/exchange/effectiveness';
import type { Arrangement } from '@/lib/core/exchange/exchanger';
import { maximumEffectiveness } from '@/lib/core/exchange/maximum-effectiveness';
import {
  assertSupportedArrangement,
  isSupportedArrangement,
} from '@/lib/core/exchange/supported-arrangement';
import { numberOfTransferUnits } from '@/lib/core/exchange/transfer-units';

const shell = (shellPasses: number, tubePasses: number): Arrangement => ({
  kind: 'shell-and-tube',
  shellPasses,
  tubePasses,
  tubeSide: 'cold',
});
const plate = (hotPasses: number, coldPasses: number): Arrangement => ({
  kind: 'plate',
  hotPasses,
  coldPasses,
  flow: 'counter',
});

describe('supported arrangements', () => {
  it('accepts one tube pass or an even number of them in each shell', () => {
    for (const [shells, tubes] of [
      [1, 1],
      [1, 2],
      [1, 8],
      [2, 4],
      [3, 6],
      [4, 16],
      [2, 2],
    ] as const) {
      expect(isSupportedArrangement(shell(shells, tubes))).toBeNull();
    }
  });

  it('refuses an odd number of tube passes above one in a shell, and passes that shells cannot share, naming both', () => {
    expect(isSupportedArrangement(shell(1, 3))).toContain('3 tube passes in 1 shell passes');
    expect(isSupportedArrangement(shell(2, 3))).toContain('3 tube passes in 2 shell passes');
    expect(isSupportedArrangement(shell(2, 6))).toContain('even number');
    expect(isSupportedArrangement(shell(3, 4))).not.toBeNull();
  });

  it('refuses passes that are not whole numbers of at least one', () => {
    for (const passes of [0, -1, 1.5, Number.NaN]) {
      expect(isSupportedArrangement(shell(passes, 2))).toContain('whole numbers');
      expect(isSupportedArrangement(shell(1, passes))).toContain('whole numbers');
      expect(isSupportedArrangement(plate(1, passes))).toContain('whole numbers');
      expect(isSupportedArrangement(plate(passes, 1))).toContain('whole numbers');
    }
  });

  it('accepts plate passes 1-1, 2-1, 1-2, 2-2, 3-1 and 1-3 only', () => {
    for (const [hot, cold] of [
      [1, 1],
      [2, 1],
      [1, 2],
      [2, 2],
      [3, 1],
      [1, 3],
    ] as const) {
      expect(isSupportedArrangement(plate(hot, cold))).toBeNull();
    }
    for (const [hot, cold] of [
      [3, 3],
      [3, 2],
      [2, 3],
      [4, 1],
      [1, 4],
    ] as const) {
      expect(isSupportedArrangement(plate(hot, cold))).toContain(`${hot}-${cold}`);
    }
  });

  it('accepts every arrangement without passes', () => {
    expect(isSupportedArrangement({ kind: 'counter-current' })).toBeNull();
    expect(isSupportedArrangement({ kind: 'co-current' })).toBeNull();
    for (const mixed of ['none', 'hot', 'cold', 'both'] as const) {
      expect(isSupportedArrangement({ kind: 'crossflow', mixed })).toBeNull();
    }
  });

  it('throws RangeError from every function that is given an unsupported one', () => {
    expect(() => assertSupportedArrangement(plate(3, 3))).toThrow(RangeError);
    expect(() => effectiveness(shell(1, 3), 1, 0.5, 'hot')).toThrow(RangeError);
    expect(() => maximumEffectiveness(shell(1, 3), 0.5, 'hot')).toThrow(RangeError);
    expect(() => numberOfTransferUnits(plate(3, 2), 0.3, 0.5, 'hot')).toThrow(RangeError);
  });
});
