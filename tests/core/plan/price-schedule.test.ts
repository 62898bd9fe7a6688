import { describe, expect, it } from 'vitest';
import { makeProblem } from '../../../lib/core/plan/make-problem';
import { priceSchedule } from '../../../lib/core/plan/price-schedule';
import { makeRandom } from '../../../lib/core/stats/random';
import { brokenConstraints, scheduleCost } from '../../support/plan-brute-force';
import { randomInput } from '../../support/plan-cases';

describe('the price of a schedule', () => {
  it('is the sum of its parts, a saving is what leaving one cleaning out costs, and no clash is missed', () => {
    let clashes = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const problem = makeProblem(randomInput(seed, { units: 4, weeks: 6 }));
      const random = makeRandom(seed);
      const schedule = problem.units.map(({ options }) => {
        let end = Number.NEGATIVE_INFINITY;
        return options.flatMap((option, index) => {
          if (option.start < end || random.uniform() < 0.6) return [];
          end = option.end;
          return [index];
        });
      });
      const priced = priceSchedule(problem, schedule);
      expect(priced.cost.total).toBeCloseTo(scheduleCost(problem, schedule), 6);
      expect(priced.cleanings).toHaveLength(schedule.flat().length);
      for (const { unit, option, saves, cost } of priced.cleanings) {
        const without = schedule.map((options, index) =>
          index === unit ? options.filter((other) => other !== option) : options,
        );
        const less = scheduleCost(problem, without) - scheduleCost(problem, schedule);
        expect(saves - cost).toBeCloseTo(less, 6);
      }
      const broken = brokenConstraints(problem, schedule).length > 0 || problem.unplaced.length > 0;
      expect(priced.clashes.length > 0, `seed ${seed}`).toBe(broken);
      clashes += priced.clashes.length;
    }
    expect(clashes).toBeGreaterThan(50);
  });

  it('says that a unit which overlaps itself is out twice', () => {
    const input = randomInput(2, { units: 1, weeks: 6 });
    const [unit] = input.units;
    const cleaning = { ...unit!.cleaning, durationDays: 9, crewHours: 0, inOutageOnly: false };
    const crews = [{ site: null, hoursPerWeek: 40 }];
    const problem = makeProblem({
      ...input,
      crews,
      outages: [],
      locked: [],
      units: [{ ...unit!, cleaning }],
    });
    const { clashes } = priceSchedule(problem, [[0, 1]]);
    const [first, second] = problem.units[0]!.options;
    expect(clashes).toContainEqual({ kind: 'together', units: [0], from: second!.start, to: first!.end });
  });
});
