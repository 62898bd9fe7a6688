import { describe, expect, it } from 'vitest';
import { alongStraightLines } from '@/lib/core/series/straight-lines';

const WEEKS = [...Array.from({ length: 105 }, (_, i) => 7 * i), 730];

function along(of: readonly ((x: number) => number)[], tolerance: number, xs: readonly number[] = WEEKS) {
  const asked: number[] = [];
  const columns = alongStraightLines(xs, {
    tolerances: of.map(() => ({ share: tolerance, least: 0 })),
    at: (index) => {
      asked.push(index);
      return of.map((each) => each(xs[index]!));
    },
  });
  return { columns, asked };
}

const furthest = (column: Float64Array, of: (x: number) => number) =>
  Math.max(...WEEKS.map((x, i) => Math.abs(column[i]! / of(x) - 1)));

describe('values on straight lines between those worked out', () => {
  it('are exact for a straight line, of which a quarter is worked out', () => {
    const { columns, asked } = along([(x) => 3 + 0.25 * x], 1e-9);
    expect([...columns[0]!]).toEqual(WEEKS.map((x) => expect.closeTo(3 + 0.25 * x, 10)));
    expect(asked.length).toBeLessThan(0.3 * WEEKS.length);
    expect(new Set(asked).size).toBe(asked.length);
  });

  it.each([
    ['an asymptotic curve', (x: number) => 2 - Math.exp(-x / 60)],
    ['a power', (x: number) => 1 + x ** 0.5],
    ['a bend', (x: number) => 1 + Math.max(0, x - 311)],
    ['a quick rise', (x: number) => 1 + 1 / (1 + Math.exp((365 - x) / 10))],
  ])('lie within the tolerance of %s', (_, of) => {
    const { columns, asked } = along([of], 1e-4);
    expect(furthest(columns[0]!, of)).toBeLessThan(1e-4);
    expect(asked.length).toBeLessThan(WEEKS.length);
  });

  it('bend where any of the quantities does, and not for one that is no number', () => {
    const bent = (x: number) => 1 + Math.max(0, x - 311);
    const { columns, asked } = along([() => Number.NaN, bent, () => 5], 1e-4);
    expect(furthest(columns[1]!, bent)).toBeLessThan(1e-4);
    expect(columns[0]!.every(Number.isNaN)).toBe(true);
    expect(columns[2]!.every((value) => value === 5)).toBe(true);
    expect(asked.length).toBeLessThan(0.4 * WEEKS.length);
  });

  it('are told of short lists, and of none', () => {
    expect(along([(x) => x * x], 0, []).columns).toEqual([new Float64Array(0)]);
    expect(along([(x) => x * x], 0, [4]).columns).toEqual([Float64Array.of(16)]);
    expect(along([(x) => x * x], 0, [4, 5, 9]).columns).toEqual([Float64Array.of(16, 25, 81)]);
  });
});
