import { describe, expect, it } from 'vitest';
import { decidesAlike, isReached, leastFallOf } from '@/lib/core/cycles/least-fall';

describe('a least fall', () => {
  it('is reached from its value on', () => {
    const least = leastFallOf(2);
    expect([1.9, 2, 2.1].map((size) => isReached(least, size))).toEqual([false, true, true]);
  });

  it('could be any other between the sizes next to it, and not one of those', () => {
    const least = leastFallOf(2);
    for (const size of [0.4, 1.5, 2.25, 7]) isReached(least, size);
    expect([1.5, 1.51, 2, 2.24, 2.25].map((value) => decidesAlike(least, value))).toEqual([
      false,
      true,
      true,
      true,
      false,
    ]);
  });

  it('could be as large as can be where nothing reached it, and its own value always', () => {
    const least = leastFallOf(2);
    isReached(least, 1);
    expect(decidesAlike(least, 1e9)).toBe(true);
    const exact = leastFallOf(2);
    isReached(exact, 2);
    expect(decidesAlike(exact, 2)).toBe(true);
    expect(decidesAlike(exact, 2.1)).toBe(false);
  });

  it('decides alike just where every comparison would come out the same', () => {
    const sizes = [0.3, 0.9, 1.2, 3.3, 5];
    for (const value of [0.1, 0.5, 1, 1.21, 3, 4, 6]) {
      const least = leastFallOf(value);
      for (const size of sizes) isReached(least, size);
      for (const other of [0.05, 0.2, 0.7, 1.1, 2, 3.4, 4.9, 9]) {
        const isSame = sizes.every((size) => size >= value === size >= other);
        expect(decidesAlike(least, other)).toBe(isSame);
      }
    }
  });
});
