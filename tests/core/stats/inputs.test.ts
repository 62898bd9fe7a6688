import { describe, expect, it } from 'vitest';
import { leastSquares } from '@/lib/core/fit/least-squares';
import { aicc, akaikeWeights } from '@/lib/core/stats/akaike';
import { lagOneAutocorrelation } from '@/lib/core/stats/autocorrelation';
import { hampelSpikes } from '@/lib/core/stats/hampel';
import { mannKendall } from '@/lib/core/stats/mann-kendall';
import { theilSen } from '@/lib/core/stats/theil-sen';
import { weightedLine } from '@/lib/core/stats/weighted-line';

describe('too little or unequal data', () => {
  it('unequal lengths are a mistake of the program', () => {
    expect(() => theilSen([1, 2], [1])).toThrow(RangeError);
    expect(() => weightedLine([1, 2], [1, 2], [1])).toThrow(RangeError);
    expect(() => leastSquares([[1, 2, 3]], [1, 2])).toThrow(RangeError);
    expect(() => leastSquares([[1], [2]], [1])).toThrow(RangeError);
    expect(() => hampelSpikes([1, 2], 0)).toThrow(RangeError);
  });

  it('what is not determined is NaN', () => {
    expect(theilSen([1], [1]).slope).toBeNaN();
    expect(theilSen([], []).low).toBeNaN();
    expect(weightedLine([2, 2], [1, 3]).slope).toBeNaN();
    expect(weightedLine([1, 2], [1, 3]).slopeError).toBeNaN();
  });

  it('a constant or single value has no autocorrelation, and no trend', () => {
    expect(lagOneAutocorrelation([3, 3, 3])).toBe(0);
    expect(lagOneAutocorrelation([3])).toBe(0);
    expect(mannKendall([3]).z).toBe(0);
  });

  it('a value that is not a number is no spike and does not hide one', () => {
    const spikes = hampelSpikes([1, Number.NaN, 1.1, 9, 0.9, 1, 1.05], 3);
    expect(Array.from(spikes)).toEqual([0, 0, 0, 1, 0, 0, 0]);
  });

  it('too few values for a model leave it out of the average; too few for any leave none', () => {
    expect(aicc(1, 3, 4)).toBe(Number.POSITIVE_INFINITY);
    expect(akaikeWeights([Number.POSITIVE_INFINITY, 2])).toEqual([0, 1]);
    expect(akaikeWeights([Number.POSITIVE_INFINITY])).toEqual([0]);
  });
});
