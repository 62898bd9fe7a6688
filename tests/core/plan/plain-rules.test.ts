import { describe, expect, it } from 'vitest';
import { makeProblem } from '../../../lib/core/plan/make-problem';
import { plainRules } from '../../../lib/core/plan/plain-rules';
import { brokenConstraints, scheduleCost } from '../../support/plan-brute-force';
import { fleetInput } from '../../support/plan-cases';

const fleet = fleetInput({ units: 6, weeks: 40, crewHours: 200, seed: 2 });
const free = { deadline: null, life: null, isOverdue: false };
const units = fleet.units.map((unit) => ({ ...unit, ...free }));

describe('the plain rules', () => {
  it('clean every unit at the next outage while its crew lasts, the rest at the one after', async () => {
    const crewed = units.map((unit) => ({
      ...unit,
      cleaning: { ...unit.cleaning, crewHours: 10, durationDays: 2 },
    }));
    const outages = fleet.outages.map((outage) => ({ ...outage, crewHours: 40 }));
    const problem = makeProblem({ ...fleet, units: crewed, outages, notTogether: [] });
    const { allAtNextOutage } = await plainRules(problem);
    const chosen = allAtNextOutage.schedule!.map((options, u) =>
      options.map((option) => problem.units[u]!.options[option]!.outage),
    );
    expect(chosen).toEqual([[0], [0], [0], [0], [1], [1]]);
    expect(allAtNextOutage.cost!.total).toBeCloseTo(scheduleCost(problem, allAtNextOutage.schedule!), 6);
  });

  it('clean a unit that cannot wait before the outage', async () => {
    const urgent = units.map((unit, index) => (index === 0 ? { ...unit, deadline: fleet.from + 30 } : unit));
    const cleaning = { ...units[0]!.cleaning, inOutageOnly: false };
    const problem = makeProblem({ ...fleet, units: [{ ...urgent[0]!, cleaning }] });
    const [options] = (await plainRules(problem)).allAtNextOutage.schedule!;
    expect(options!.map((option) => problem.units[0]!.options[option]!.outage)).toEqual([null]);
    expect(problem.units[0]!.options[options![0]!]!.start).toBeLessThanOrEqual(fleet.from + 30);
  });

  it('take the one interval that costs the fleet least, and keep to every constraint', async () => {
    const online = units.map((unit) => ({ ...unit, cleaning: { ...unit.cleaning, inOutageOnly: false } }));
    const problem = makeProblem({ ...fleet, outages: [], units: online, notTogether: [['E-1', 'E-2']] });
    const { fixedInterval, noCleaning } = await plainRules(problem);
    expect(fixedInterval.days! % 7).toBe(0);
    expect(brokenConstraints(problem, fixedInterval.schedule!)).toEqual([]);
    for (const [u, options] of fixedInterval.schedule!.entries()) {
      const starts = options.map((option) => problem.units[u]!.options[option]!.start);
      for (const [i, start] of starts.slice(1).entries()) {
        expect(start - starts[i]!).toBeGreaterThanOrEqual(fixedInterval.days!);
      }
    }
    const empty = problem.units.map(() => []);
    expect(noCleaning.total).toBeCloseTo(scheduleCost(problem, empty), 6);
  });

  it('are the same however little time there is: the same inputs give the same rules', async () => {
    const online = units.map((unit) => ({ ...unit, cleaning: { ...unit.cleaning, inOutageOnly: false } }));
    const problem = makeProblem({ ...fleet, units: online });
    const hurried = { hasTime: () => false, pause: async () => {} };
    expect(await plainRules(problem, null, hurried)).toEqual(await plainRules(problem));
  });

  it('have no cost, but clashes, where they cannot be followed', async () => {
    const late = units.map((unit) => ({ ...unit, deadline: fleet.from + 1 }));
    const problem = makeProblem({ ...fleet, units: late });
    const { allAtNextOutage, fixedInterval } = await plainRules(problem);
    for (const rule of [allAtNextOutage, fixedInterval]) {
      expect(rule.cost).toBeNull();
      expect(rule.schedule).toBeNull();
      expect(rule.clashes.some(({ kind }) => kind === 'limit')).toBe(true);
    }
  });
});
