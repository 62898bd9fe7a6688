import { describe, expect, it } from 'vitest';
import { planBases } from '@/lib/work/unit-bases';
import { FEW_PLATES } from '../support/clean-records';

describe('versions and references by their dates', () => {
  const version = (number: number, validFrom?: string) => ({
    number,
    unit: { ...FEW_PLATES, validFrom },
    savedAt: 0,
  });
  const reference = (number: number, from: number | null) => ({
    number,
    from,
    method: 'scale' as const,
    factors: { hot: number, wall: 1, cold: 1 },
  });
  const starts = (plan: ReturnType<typeof planBases>) =>
    plan.map(({ from, unitVersion, reference: held }) => [from, unitVersion, held]);
  const [MARCH, MAY] = [Date.UTC(2026, 2, 1), Date.UTC(2026, 4, 1)];
  const iso = (at: number) => new Date(at).toISOString();

  it('override what came before from their date on', () => {
    expect(starts(planBases([version(1), version(2, iso(MAY))], []))).toEqual([
      [0, 1, null],
      [MAY, 2, null],
    ]);
    // A later version that holds from March on replaces the one from May; one without a date replaces everything.
    const three = [version(1), version(2, iso(MAY)), version(3, iso(MARCH))];
    expect(starts(planBases(three, []))).toEqual([
      [0, 1, null],
      [MARCH, 3, null],
    ]);
    expect(starts(planBases([...three, version(4)], []))).toEqual([[0, 4, null]]);
    // Edited again with its date kept, the equipment of May stays dated.
    expect(starts(planBases([version(1), version(2, iso(MAY)), version(3, iso(MAY))], []))).toEqual([
      [0, 1, null],
      [MAY, 3, null],
    ]);
  });

  it('let a first datasheet with a date reach back for ever', () => {
    expect(starts(planBases([version(1, iso(MAY))], []))).toEqual([[0, 1, null]]);
  });

  it('cross each other', () => {
    const plan = planBases([version(1), version(2, iso(MAY))], [reference(1, MARCH), reference(2, MAY)]);
    expect(starts(plan)).toEqual([
      [0, 1, null],
      [MARCH, 1, 1],
      [MAY, 2, 2],
    ]);
    expect(plan.map(({ cleanFactors }) => cleanFactors.hot)).toEqual([1, 1, 2]);
    expect(starts(planBases([version(1)], [reference(1, MARCH), reference(2, null)]))).toEqual([[0, 1, 2]]);
  });
});
