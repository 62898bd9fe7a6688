import { describe, expect, it } from 'vitest';
import { makeProblem } from '../../../lib/core/plan/make-problem';
import type { PlanInput, PlanUnitInput } from '../../../lib/core/plan/plan-input';
import { FIRST_DAY, fleetInput } from '../../support/plan-cases';

const MONDAY = FIRST_DAY + 4;
const EIGHT = 8 / 24;
const fleet = fleetInput({ units: 1, weeks: 4, crewHours: 40, seed: 1 });

function problemOf(changed: Partial<PlanInput>, unit: Partial<PlanUnitInput>, cleaning = {}) {
  const base = fleet.units[0]!;
  const plain = { durationDays: 2, crewHours: 20, inOutageOnly: false, downtimePerDay: 100 };
  const units = [{ ...base, ...unit, cleaning: { ...base.cleaning, ...plain, ...cleaning } }];
  return makeProblem({ ...fleet, outages: [], ...changed, units });
}

describe('the plan as a problem', () => {
  it('offers Mondays at eight from the first on or after the plan begins, each ending within the plan', () => {
    const [unit] = problemOf({}, {}).units;
    // 1 January 2026 is a Thursday; the plan ends on a Thursday four weeks later.
    expect(unit!.options.map(({ start }) => start)).toEqual(
      [0, 7, 14, 21].map((day) => MONDAY + day + EIGHT),
    );
    expect(unit!.options.every(({ end, start, downtime }) => end === start + 2 && downtime === 200)).toBe(
      true,
    );
    expect(problemOf({}, {}, { durationDays: 3 }).units[0]!.options).toHaveLength(3);
  });

  it('takes crew hours from every week a cleaning reaches, in proportion', () => {
    const { pools, units } = problemOf({}, {}, { durationDays: 10, crewHours: 30 });
    const [first] = units[0]!.options;
    const inFirstWeek = 7 - EIGHT;
    expect(first!.crew.map(({ pool }) => pools[pool]!.from)).toEqual([MONDAY, MONDAY + 7]);
    expect(first!.crew[0]!.hours).toBeCloseTo(30 * (inFirstWeek / 10), 9);
    expect(first!.crew[1]!.hours).toBeCloseTo(30 * (1 - inFirstWeek / 10), 9);
  });

  it('offers an outage the cleaning fits into, without downtime, and no week that reaches into it', () => {
    const outage = { name: 'Spring', from: MONDAY + 6, to: MONDAY + 9, crewHours: 50, site: null };
    const [unit] = problemOf({ outages: [outage] }, {}).units;
    const starts = unit!.options.map(({ start }) => start);
    expect(starts).toEqual([MONDAY + EIGHT, MONDAY + 6, MONDAY + 14 + EIGHT, MONDAY + 21 + EIGHT]);
    expect(unit!.options[1]).toMatchObject({ outage: 0, downtime: 0, crew: [{ pool: 0, hours: 20 }] });
    const elsewhere = problemOf({ outages: [{ ...outage, site: 'South' }] }, {}).units[0]!;
    expect(elsewhere.options.every((option) => option.outage === null)).toBe(true);
    expect(problemOf({ outages: [outage] }, {}, { inOutageOnly: true }).units[0]!.options).toHaveLength(1);
    expect(problemOf({ outages: [outage] }, {}, { durationDays: 4 }).units[0]!.options[1]!.outage).toBeNull();
  });

  it('counts the days by which the next cleaning would be late', () => {
    const [unit] = problemOf({}, { deadline: MONDAY + 8, life: 5, isOverdue: false }).units;
    const width = 5;
    const lateness = (row: number, column: number) => unit!.lateness[row * width + column]!;
    expect(lateness(0, 1)).toBe(0);
    expect(lateness(0, 2)).toBeCloseTo(6 + EIGHT, 9);
    expect(lateness(0, 4)).toBe(fleet.to - (MONDAY + 8));
    // From the end of the first, two days after it began, five days of life end as the next can start.
    expect(lateness(1, 1)).toBeCloseTo(0, 9);
    expect(lateness(1, 2)).toBeCloseTo(7, 9);
    expect(lateness(2, 0)).toBeNaN();
  });

  it('keeps a locked cleaning where it is, and says where it cannot', () => {
    const tag = fleet.units[0]!.tag;
    const onSlot = problemOf({ locked: [{ tag, start: MONDAY + 7 }] }, {});
    expect(onSlot.units[0]!.locked).toEqual([1]);
    const between = problemOf({ locked: [{ tag, start: MONDAY + 9.5 }] }, {});
    expect(between.units[0]!.options[between.units[0]!.locked[0]!]!.start).toBe(MONDAY + 9.5);
    expect(between.unplaced).toEqual([]);
    expect(problemOf({ locked: [{ tag, start: FIRST_DAY - 3 }] }, {}).unplaced).toEqual([0]);
    const twice = [MONDAY + 7, MONDAY + 8].map((start) => ({ tag, start }));
    expect(problemOf({ locked: twice }, {}).unplaced).toEqual([0]);
  });
});
