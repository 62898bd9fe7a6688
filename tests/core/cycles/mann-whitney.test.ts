import { describe, expect, it } from 'vitest';
import { mannWhitney } from '@/lib/core/cycles/mann-whitney';

/** Ozone of May and August in R's data set `airquality`, from memory; the printed result below confirms the values. */
const MAY = [
  41, 36, 12, 18, 28, 23, 19, 8, 7, 16, 11, 14, 18, 14, 34, 6, 30, 11, 1, 11, 4, 32, 23, 45, 115, 37,
];
const AUGUST = [
  39, 9, 16, 78, 35, 66, 122, 89, 110, 44, 28, 65, 22, 59, 23, 31, 44, 21, 9, 45, 168, 73, 76, 118, 84, 85,
];
/** Permeability of membranes at term and before, in R's page of `wilcox.test` (Hollander & Wolfe 1973, p. 69), from memory. */
const TERM = [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46];
const EARLY = [1.15, 0.88, 0.9, 0.74, 1.21];

describe('rank test of two samples', () => {
  it('with ties gives what R prints for wilcox.test(Ozone ~ Month): W = 127.5, p = 0.0001208', () => {
    const { u, probability } = mannWhitney(MAY, AUGUST);
    expect(u).toBe(127.5);
    expect(probability.toPrecision(4)).toBe('0.0001208');
  });

  it('without ties gives W = 35 of R and the approximate probability of SciPy 1.17, near the exact 0.2544', () => {
    const { u, probability } = mannWhitney(TERM, EARLY);
    expect(u).toBe(35);
    expect(probability).toBeCloseTo(0.24462360512698333, 12);
  });

  it('is the same the other way round, with the other U', () => {
    const one = mannWhitney(MAY, AUGUST);
    const other = mannWhitney(AUGUST, MAY);
    expect(other.u).toBe(MAY.length * AUGUST.length - one.u);
    expect(other.probability).toBeCloseTo(one.probability, 14);
  });

  it('sees no difference between equal values, or with an empty sample', () => {
    expect(mannWhitney([1, 1, 1], [1, 1]).probability).toBe(1);
    expect(mannWhitney([], [1, 2]).probability).toBe(1);
    expect(mannWhitney([], []).probability).toBe(1);
  });
});
