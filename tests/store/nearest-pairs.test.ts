import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearestPairs } from '@/lib/store/entities/nearest-pairs';

const instants = fc.array(fc.integer({ min: 0, max: 60 }), { maxLength: 5 });
const ascending = (values: number[]) => values.toSorted((one, other) => one - other);
const away = (before: number[], after: number[], pairs: [number, number][]) =>
  pairs.reduce((sum, [one, other]) => sum + Math.abs(before[one]! - after[other]!), 0);

/** Brute force: the first of the shorter list goes with any of the longer, the others with what is left. */
function least(shorter: number[], longer: number[]): number {
  if (shorter.length === 0) return 0;
  const [first, ...rest] = shorter as [number, ...number[]];
  return Math.min(
    ...longer.map((other, at) => Math.abs(other - first) + least(rest, longer.toSpliced(at, 1))),
  );
}

describe('pairing instants with the nearest', () => {
  it('moves all of them together as little as any pairing does, and none past another', () => {
    fc.assert(
      fc.property(instants.map(ascending), instants.map(ascending), (before, after) => {
        const pairs = nearestPairs(before, after);
        const [shorter, longer] = before.length <= after.length ? [before, after] : [after, before];
        expect(pairs).toHaveLength(shorter.length);
        expect(away(before, after, pairs)).toBe(least(shorter, longer));
        pairs.slice(1).forEach(([one, other], at) => {
          expect(one).toBeGreaterThan(pairs[at]![0]);
          expect(other).toBeGreaterThan(pairs[at]![1]);
        });
      }),
    );
  });
});
