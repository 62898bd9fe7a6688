import { describe, expect, it } from 'vitest';
import { pareto } from '@/lib/report/energy/pareto';

const listOf = (...sizes: (number | null)[]) =>
  pareto(
    sizes.map((size, index) => ({ size, tag: `E-${index + 1}` })),
    { sizeOf: ({ size }) => size, nameOf: ({ tag }) => tag },
  );

describe('the sorted list of what makes most of it', () => {
  it('puts the largest first, with what it and all above make of the whole', () => {
    const { rows, total, makeMost } = listOf(10, 40, 30, 20);
    expect(total).toBe(100);
    expect(rows.map(({ item, ofLargest, cumulative }) => [item.tag, ofLargest, cumulative])).toEqual([
      ['E-2', 1, 0.4],
      ['E-3', 0.75, 0.7],
      ['E-4', 0.5, 0.9],
      ['E-1', 0.25, 1],
    ]);
    // 40 + 30 = 70 % is not yet 80 %.
    expect(makeMost).toBe(3);
  });

  it('counts exactly 80 % as 80 %, whatever the last bit', () => {
    expect(listOf(50, 30, 20).makeMost).toBe(2);
    expect(listOf(0.5, 0.1, 0.1, 0.1, 0.2).makeMost).toBe(3);
  });

  it('leaves out what is no loss, or not known, and neither lowers the whole', () => {
    const { rows, total } = listOf(10, -5, null, 0);
    expect(rows.map(({ item }) => item.tag)).toEqual(['E-1']);
    expect(total).toBe(10);
    expect(listOf(null, -1)).toEqual({ rows: [], total: 0, makeMost: 0 });
  });

  it('keeps equals in the order of their tags', () => {
    expect(listOf(5, 5, 5).rows.map(({ item }) => item.tag)).toEqual(['E-1', 'E-2', 'E-3']);
  });
});
