import { describe, expect, it } from 'vitest';
import { floatColumns } from '@/lib/core/series/float-columns';

describe('columns in one piece of memory', () => {
  it('are empty, and written apart', () => {
    const { a, b } = floatColumns(['a', 'b'], 3);
    expect(b).toEqual(new Float64Array(3).fill(Number.NaN));
    a.fill(1);
    b[0] = 2;
    expect([...a, ...b]).toEqual([1, 1, 1, 2, Number.NaN, Number.NaN]);
  });

  it('may have no rows', () => {
    expect(floatColumns(['a'], 0).a).toHaveLength(0);
  });
});
