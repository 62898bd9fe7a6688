import { describe, expect, it } from 'vitest';
import { filmVariants } from '@/lib/core/clean/film-variants';

describe('the films with one assumption moved', () => {
  it('move one at a time, by a tenth either way', () => {
    const films = { hotShare: 0.45, wallShare: 0.05, hotExponent: 0.7, coldExponent: 0.6 };
    const variants = filmVariants(films);
    expect(variants).toHaveLength(6);
    for (const { name, step, films: moved } of variants) {
      expect(moved[name]).toBeCloseTo(films[name] + step, 12);
      expect({ ...moved, [name]: films[name] }).toEqual(films);
    }
  });

  it('stay in the possible range', () => {
    const films = { hotShare: 0.88, wallShare: 0.05, hotExponent: 0.95, coldExponent: 0 };
    const ends = filmVariants(films).map(({ name, films: moved }) => moved[name]);
    expect(ends).toEqual([0.85, 0, 0.78, 1, 0.1, 0.95]);
  });
});
