import { describe, expect, it } from 'vitest';
import { balanceError, capacityRate, streamDuty, weightedDuty } from '@/lib/core/exchange/duty';

describe('duty and balance', () => {
  it('is mass flow times enthalpy change', () => {
    expect(streamDuty(2, 4180)).toBe(8360);
    expect(streamDuty(0, 4180)).toBe(0);
    expect(streamDuty(2, -10)).toBe(-20);
  });

  it('has the error (Qh − Qc) over their mean', () => {
    expect(balanceError(105, 95)).toBeCloseTo(0.1, 15);
    expect(balanceError(95, 105)).toBeCloseTo(-0.1, 15);
    expect(balanceError(100, 0)).toBe(2);
  });

  it('has no error where nothing is transferred, and none can be stated where the duties only cancel', () => {
    expect(balanceError(0, 0)).toBe(0);
    expect(balanceError(5, -5)).toBeNaN();
    expect(balanceError(Number.NaN, 5)).toBeNaN();
  });

  it('weights the two duties by the inverse of their variances', () => {
    expect(weightedDuty(100, 110, { hot: 1, cold: 1 })).toBe(105);
    // (100/1 + 110/4)/(1 + 1/4) = 102
    expect(weightedDuty(100, 110, { hot: 1, cold: 2 })).toBeCloseTo(102, 12);
    expect(weightedDuty(100, 110, { hot: 2, cold: 1 })).toBeCloseTo(108, 12);
    expect(weightedDuty(100, 110, { hot: 0, cold: 1 })).toBeNaN();
    expect(weightedDuty(100, 110, { hot: 1, cold: -1 })).toBeNaN();
  });

  it('is the capacity rate times the temperature change, which no change cannot tell', () => {
    expect(capacityRate(1000, 10)).toBe(100);
    expect(capacityRate(-1000, -10)).toBe(100);
    expect(capacityRate(1000, 0)).toBeNaN();
  });
});
