import { describe, expect, it } from 'vitest';
import { nearOptimumCycles, optimumCycle } from '@/lib/core/cost/optimum-cycle';
import { readPublished } from '../support/published-data';
import { testChecks } from '../support/table-test';
import { FORMS, growthChecks, withinHorizon } from './checks/growth';
import {
  costOf,
  LATEST_DAYS,
  LOSSES,
  optimumCase,
  optimumCases,
  optimumCleaningChecks,
  TRIAL_DAYS,
} from './checks/optimum-cleaning';

/** Kern & Seaton 1959, Epstein 1983, Ma & Epstein 1981, Casado 1990. */
const { cases } = readPublished<{ cases: { growth: { id: string; time_to_limit?: number | null }[] } }>(
  'fouling-models',
);

/** The S-shaped form is none of the program's, and the rate form has a check of its own. */
const NO_FORM = ['sigmoid', 'kern-seaton-rate-form'];

describe('growth models', () => {
  testChecks(growthChecks());

  it('covers every tabulated case that is a form of the program', () => {
    expect([...Object.keys(FORMS), ...NO_FORM].sort()).toEqual(cases.growth.map(({ id }) => id).sort());
  });

  it.each(cases.growth.filter(({ id, time_to_limit }) => id in FORMS && time_to_limit !== undefined))(
    '$id: a known growth reaches its limit within the horizon for certain, or never',
    ({ id, time_to_limit }) => expect(withinHorizon(id)).toBe(time_to_limit === null ? 0 : 1),
  );
});

describe('optimum cleaning interval', () => {
  testChecks(optimumCleaningChecks());

  it('covers every tabulated case', () => {
    expect(optimumCases.map((one) => one.id)).toEqual(Object.keys(LOSSES));
  });

  it('where cleaning never pays, the mean cost stays above the loss and no cycle is near the optimum', () => {
    const one = optimumCase('asymptotic-loss-never-clean');
    const cost = costOf(one.id);
    const optimum = optimumCycle(cost, TRIAL_DAYS);
    expect(optimum.meanCost).toBeGreaterThan(one.inputs.L!);
    expect(nearOptimumCycles(cost, optimum, { share: 0.05, latestDays: LATEST_DAYS })).toBeNull();
  });

  it('without growth of the loss, cleaning never pays', () => {
    const flat = { rateAt: () => 3, until: (days: number) => 3 * days };
    const cost = { ...costOf('linear-loss-no-outage'), loss: flat };
    expect(optimumCycle(cost, TRIAL_DAYS).cycleDays).toBeNull();
  });
});
