import { describe, expect, it } from 'vitest';
import { rateOn } from '@/lib/core/cost/dated-rate';

const rates = [
  { fromDay: 100, perJoule: 1 },
  { fromDay: 200, perJoule: 2 },
];

describe('the rate that holds on a day', () => {
  it('is the one that began last, from its first day on', () => {
    expect([100, 199, 200, 5000].map((day) => rateOn(rates, day))).toEqual([1, 1, 2, 2]);
  });

  it('is not known before the first and without any', () => {
    expect(rateOn(rates, 99)).toBeNull();
    expect(rateOn([], 100)).toBeNull();
  });
});
