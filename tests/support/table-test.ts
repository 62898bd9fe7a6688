import { expect, it } from 'vitest';
import { type Check, isWithin } from '../published/checks/check';

/** One test for each check: every value of ours is within the check's tolerance of theirs. */
export function testChecks(checks: Check[]): void {
  it.each(checks)('$id: $quantity ($source)', ({ rows, tolerance }) => {
    expect(rows.length).toBeGreaterThan(0);
    expect(rows.filter((row) => !isWithin(row, tolerance))).toEqual([]);
  });
}
