import { describe, expect, it } from 'vitest';
import { firstNotBefore } from '@/lib/core/series/first-not-before';

describe('firstNotBefore', () => {
  const time = Float64Array.of(10, 20, 20, 30);

  it('is the index of the first instant at or after the one asked for', () => {
    expect([5, 10, 15, 20, 25, 30].map((instant) => firstNotBefore(time, instant))).toEqual([
      0, 0, 1, 1, 3, 3,
    ]);
  });

  it('is the length where all are before, and 0 of nothing', () => {
    expect(firstNotBefore(time, 31)).toBe(4);
    expect(firstNotBefore(new Float64Array(0), 1)).toBe(0);
  });
});
