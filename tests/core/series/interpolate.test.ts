import { describe, expect, it } from 'vitest';
import { interpolate } from '@/lib/core/series/interpolate';

describe('interpolation', () => {
  it('gives the points themselves and straight lines between them', () => {
    const at = (x: number) => interpolate([0, 2, 6], [1, 5, 3], x);
    expect([0, 1, 2, 3, 6].map(at)).toEqual([1, 3, 5, 4.5, 3]);
  });

  it('keeps the last value beyond the last point', () => {
    expect(interpolate([0, 2], [1, 5], 99)).toBe(5);
    expect(interpolate([0], [4], 3)).toBe(4);
  });
});
