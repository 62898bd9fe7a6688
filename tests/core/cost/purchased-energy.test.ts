import { describe, expect, it } from 'vitest';
import { purchasedEnergy } from '@/lib/core/cost/purchased-energy';

describe('purchasedEnergy', () => {
  it('divides lost heat by the efficiency of what makes up for it', () => {
    // 85 kWh of heat from a boiler of 85 % costs 100 kWh of fuel; 85 kWh of cooling at COP 4 costs 21.25 kWh.
    expect(purchasedEnergy(85 * 3.6e6, 0.85)).toBeCloseTo(100 * 3.6e6, 3);
    expect(purchasedEnergy(85 * 3.6e6, 4)).toBeCloseTo(21.25 * 3.6e6, 3);
  });

  it('refuses an efficiency that is not greater than 0', () => {
    expect(() => purchasedEnergy(1, 0)).toThrow(RangeError);
    expect(() => purchasedEnergy(1, Number.NaN)).toThrow(RangeError);
  });
});
