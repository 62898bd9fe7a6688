import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { reasonsOf } from '@/lib/core/checks/reasons';
import { type Exchanger, SENSORS } from '@/lib/core/exchange/exchanger';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { sensorsOf } from '@/lib/core/fouling/evaluation-columns';
import { constantFluid, readingsOf, solveForward, waterUnit } from '../../support/forward-readings';

const TYPED_IN = { absolute: 0, relative: 0.1, systematicShare: 1 };
const plain = waterUnit({ hot: constantFluid(4180), cold: constantFluid(4180) });
const withNominal = (hot: number | null, cold: number | null): Exchanger => ({
  ...plain,
  nominalFlows: { hot, cold },
  sensors: { ...plain.sensors, hotFlow: TYPED_IN, coldFlow: TYPED_IN },
});
const state = solveForward(plain, { ...plain.design, fouling: 1e-4 });
const evaluate = (exchanger: Exchanger, change: Partial<typeof state> = {}) =>
  evaluateReadings({
    exchanger,
    settings: DEFAULT_CHECK_SETTINGS,
    readings: readingsOf([{ ...state, ...change }]),
  });
const NONE = Number.NaN;
const UNMETERED = { hotFlow: NONE, coldFlow: NONE };

describe('a nominal flow', () => {
  it('is not used where the other flow is measured: the balance infers it', () => {
    const result = evaluate(withNominal(15, 15), { hotFlow: NONE });
    expect(result.nominal[0]).toBe(0);
    expect(result.hotMassFlow[0]! / state.hotFlow).toBeCloseTo(1, 9);
  });

  it('stands in where neither flow is measured; the other is inferred from it, and U goes in proportion to it', () => {
    const right = evaluate(withNominal(20, null), UNMETERED);
    const wrong = evaluate(withNominal(22, null), UNMETERED);
    expect(reasonsOf(right.reasons[0]!)).toEqual([]);
    expect(sensorsOf(right.nominal[0]!, SENSORS)).toEqual(['hotFlow']);
    expect(sensorsOf(right.inferred[0]!, SENSORS)).toEqual(['coldFlow']);
    expect(Math.abs(right.foulingResistance[0]! - 1e-4)).toBeLessThan(1e-10);
    expect(wrong.overallU[0]! / right.overallU[0]!).toBeCloseTo(1.1, 9);
    expect(right.balance[0]).toBeNaN();
    expect(right.overallUUncertainty[0]!).toBeGreaterThan(evaluate(plain).overallUUncertainty[0]!);
  });

  it('stands in beside a missing temperature', () => {
    const result = evaluate(withNominal(20, null), { hotFlow: NONE, coldOut: NONE });
    expect(reasonsOf(result.reasons[0]!)).toEqual([]);
    expect(sensorsOf(result.nominal[0]!, SENSORS)).toEqual(['hotFlow']);
    expect(sensorsOf(result.inferred[0]!, SENSORS)).toEqual(['coldOut']);
    expect(Math.abs(result.foulingResistance[0]! - 1e-4)).toBeLessThan(1e-10);
  });

  it('on both sides: reconciled by their uncertainties, and no balance checked however far apart they are', () => {
    const result = evaluate(withNominal(20, 40), UNMETERED);
    expect(reasonsOf(result.reasons[0]!)).toEqual([]);
    expect(result.balance[0]).toBeNaN();
    expect(result.inferred[0]).toBe(0);
    expect(sensorsOf(result.nominal[0]!, SENSORS)).toEqual(['hotFlow', 'coldFlow']);
    expect(result.hotMassFlow[0]!).toBeGreaterThan(20);
    expect(result.coldMassFlow[0]!).toBeLessThan(40);
    expect(evaluate(plain, { hotFlow: 20, coldFlow: 40 }).reasons[0]).not.toBe(0);
  });

  it('says nothing of a unit that stands still or of turndown: a measured flow does', () => {
    const still = withNominal(0.1, null);
    expect(reasonsOf(evaluate(still, UNMETERED).reasons[0]!)).not.toContain('unit-off');
    expect(reasonsOf(evaluate(withNominal(20, 25), { hotFlow: 0.1, coldFlow: NONE }).reasons[0]!)).toEqual([
      'unit-off',
    ]);
  });

  it('has its whole uncertainty alike in every reading: u(Rf) is what a tenth more and less of it makes', () => {
    const exact = { absolute: 0, relative: 0, systematicShare: 0 };
    const given = withNominal(20, null);
    const sensors = { ...given.sensors, hotIn: exact, hotOut: exact, coldIn: exact, coldOut: exact };
    const stated = evaluate({ ...given, sensors }, UNMETERED);
    expect(stated.foulingResistanceSystematic[0]).toBe(stated.foulingResistanceUncertainty[0]);
    // First order: a hundredth either way, taken ten times.
    const [low, high] = [19.8, 20.2].map(
      (hot) =>
        evaluate({ ...given, sensors, nominalFlows: { hot, cold: null } }, UNMETERED).foulingResistance[0]!,
    );
    const change = (10 * Math.abs(high! - low!)) / 2;
    expect(change / stated.foulingResistanceUncertainty[0]!).toBeCloseTo(1, 3);
  });
});
