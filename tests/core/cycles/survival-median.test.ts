import { describe, expect, it } from 'vitest';
import { survivalMedian } from '@/lib/core/cycles/survival-median';

const over = (...days: number[]) => days.map((own) => ({ days: own, isOver: true }));
const still = (...days: number[]) => days.map((own) => ({ days: own, isOver: false }));

describe('median of lifetimes of which some still last', () => {
  // Weeks of remission, Freireich et al., Blood 21 (1963) 699-716, as in many textbooks (from memory): medians 23 and 8.
  it('is 23 weeks for the treated and 8 for the others in the classic trial', () => {
    const treated = [
      ...over(6, 6, 6, 7, 10, 13, 16, 22, 23),
      ...still(6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35),
    ];
    const others = over(1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23);
    expect(survivalMedian(treated)).toBe(23);
    expect(survivalMedian(others)).toBe(8);
  });

  it('is not yet to be told while more than half last', () => {
    expect(survivalMedian([...over(10, 20), ...still(30, 40, 50)])).toBeNull();
    expect(survivalMedian(still(5))).toBeNull();
    expect(survivalMedian([])).toBeNull();
  });

  it('counts those last seen on the day of an end as lasting beyond it', () => {
    expect(survivalMedian([...still(10), ...over(10)])).toBe(10);
    expect(survivalMedian([...still(10, 10), ...over(10)])).toBeNull();
  });
});
