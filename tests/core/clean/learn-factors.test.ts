import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { cleanConductance } from '@/lib/core/clean/clean-conductance';
import { cleanReference } from '@/lib/core/clean/clean-reference';
import { type LearningInput, learnFactors } from '@/lib/core/clean/learn-factors';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import {
  breathingStates,
  EPOCH,
  HOUR_MS,
  readingsOf,
  solveForward,
  WATER,
  waterUnit,
} from '../../support/forward-readings';

const exchanger = waterUnit();
/** What is installed has 10 % more clean resistance than its datasheet says. */
const installed = waterUnit({ design: { ...exchanger.design, cleanU: exchanger.design.cleanU! / 1.1 } });
const readings = readingsOf(breathingStates(installed, 120, () => 0));
const inlets = { hotIn: 78, coldIn: 18, hotFlow: 17, coldFlow: 24 };
const test = readingsOf([solveForward(installed, { ...inlets, fouling: 0 })]);

const input = (changes: Partial<LearningInput> = {}): LearningInput => ({
  method: 'scale',
  exchanger,
  settings: DEFAULT_CHECK_SETTINGS,
  test,
  readings,
  from: EPOCH,
  to: EPOCH + 120 * HOUR_MS,
  nominal: 0,
  ...changes,
});

describe('clean factors by each method', () => {
  it('are 1 by the datasheet, from nothing', () => {
    const learned = learnFactors(input({ method: 'datasheet' }));
    expect(learned).toMatchObject({ factors: { hot: 1, wall: 1, cold: 1 }, evidence: null, refusal: null });
  });

  it.each(['scale', 'test'] as const)('find the true factor by %s, with its uncertainty', (method) => {
    const { factors, uncertainty, refusal } = learnFactors(input({ method }));
    expect(refusal).toBeNull();
    expect(Math.abs(factors!.hot - 1.1)).toBeLessThan(1e-4);
    expect(factors).toEqual({ hot: factors!.hot, wall: factors!.hot, cold: factors!.hot });
    expect(uncertainty.hot).toBeGreaterThan(0);
    expect(uncertainty.cold).toBe(uncertainty.hot);
  });

  it('make the clean U of the datasheet that of the unit', () => {
    const { factors } = learnFactors(input());
    const fluids = { hot: makeFluid(WATER), cold: makeFluid(WATER) };
    const at = [18, 22, 65, 30] as const;
    const learned = cleanConductance(cleanReference(exchanger, fluids, factors!), ...at);
    const truth = cleanConductance(cleanReference(installed, fluids), ...at);
    expect(Math.abs(learned / truth - 1)).toBeLessThan(1e-4);
  });

  it('say how both ways to learn do on the same readings, whichever is asked for', () => {
    const { scale, films } = learnFactors(input());
    expect(scale!.readings).toBe(120);
    expect(films!.readings).toBe(120);
  });

  it('are refused for too few readings, without a clean test, and for films that cannot be told apart', () => {
    expect(learnFactors(input({ to: EPOCH + 3 * HOUR_MS })).refusal).toEqual({ kind: 'too-few-readings' });
    expect(learnFactors(input({ method: 'test', test: null })).refusal).toEqual({ kind: 'no-test' });
    const { factors, refusal, films } = learnFactors(input({ method: 'two-films' }));
    // The truth is one factor on everything, the wall included: two say no more.
    expect(films!.doubts).not.toEqual([]);
    expect([factors, refusal]).toEqual([null, { kind: 'films-not-told-apart' }]);
  });

  it('are refused for a test that was left out, with its reasons', () => {
    const open = { ...test, coldFlow: test.coldFlow.map((flow) => 1.5 * flow) };
    expect(learnFactors(input({ method: 'test', test: open })).refusal).toEqual({
      kind: 'test-left-out',
      reasons: ['balance-not-closed'],
    });
  });
});
