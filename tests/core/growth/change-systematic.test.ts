import { describe, expect, it } from 'vitest';
import { changeSystematic } from '@/lib/core/growth/change-systematic';
import { fitGrowth } from '@/lib/core/growth/fit-growth';
import { projectCrossing } from '@/lib/core/growth/project-crossing';

const days = Array.from({ length: 60 }, (_, day) => day);
const figures = {
  ageDays: days,
  foulingResistance: days.map((day) => 1e-6 * day + 1e-6 * Math.sin(day * 2.3)),
  uncertainty: days.map(() => 1e-6),
};

describe('another systematic uncertainty', () => {
  it('gives the crossing that fitting with it gives', () => {
    const rough = fitGrowth({ ...figures, systematicUncertainty: 2e-5 });
    const fine = fitGrowth({ ...figures, systematicUncertainty: 5e-6 });
    const crossing = (growth: typeof rough) =>
      projectCrossing({ growth, limit: 1e-4, ageToday: 60, horizonDays: 700 });
    const changed = crossing(changeSystematic(rough, 2e-5, 5e-6));
    expect(changed.p10!).toBeCloseTo(crossing(fine).p10!, 6);
    expect(changed.p90!).toBeCloseTo(crossing(fine).p90!, 6);
    expect(changed.p90! - changed.p10!).toBeLessThan(crossing(rough).p90! - crossing(rough).p10!);
  });
});
