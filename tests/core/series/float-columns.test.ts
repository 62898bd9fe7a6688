import { describe, expect, it } from 'vitest';
import { firstRows, floatColumns } from '@/lib/core/series/float-columns';

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

describe('the first rows of columns', () => {
  it('are views, each of its own column', () => {
    const columns = { a: Float64Array.of(1, 2, 3), b: Float64Array.of(4, 5, 6) };
    const first = firstRows(columns, 2);
    expect([...first.a, ...first.b]).toEqual([1, 2, 4, 5]);
    first.a[0] = 7;
    expect(columns.a[0]).toBe(7);
    expect(columns.b).toHaveLength(3);
  });
});
