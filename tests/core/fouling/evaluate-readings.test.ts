import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { REASON_BIT, reasonsOf } from '@/lib/core/checks/reasons';
import { scaledFactors } from '@/lib/core/clean/clean-reference';
import type { Arrangement, Exchanger } from '@/lib/core/exchange/exchanger';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { sensorsOf } from '@/lib/core/fouling/evaluation-columns';
import {
  COLD_FLOW_IS_VOLUME,
  HOT_FLOW_IS_VOLUME,
  makeReadingColumns,
  type ReadingColumns,
} from '@/lib/core/series/reading-columns';
import {
  breathingStates,
  constantFluid,
  readingsOf,
  solveForward,
  waterUnit,
} from '../../support/forward-readings';

const settings = DEFAULT_CHECK_SETTINGS;
const evaluate = (exchanger: Exchanger, readings: ReadingColumns, cleanScale = 1) =>
  evaluateReadings({ exchanger, settings, readings, cleanFactors: scaledFactors(cleanScale) });
const relative = (value: number, expected: number) => Math.abs(value / expected - 1);

const ARRANGEMENTS: Arrangement[] = [
  { kind: 'counter-current' },
  { kind: 'co-current' },
  { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2, tubeSide: 'cold' },
  { kind: 'shell-and-tube', shellPasses: 2, tubePasses: 4, tubeSide: 'cold' },
  { kind: 'crossflow', mixed: 'none' },
  { kind: 'crossflow', mixed: 'hot' },
  { kind: 'crossflow', mixed: 'cold' },
  { kind: 'crossflow', mixed: 'both' },
  { kind: 'plate', hotPasses: 1, coldPasses: 1, flow: 'counter' },
  { kind: 'plate', hotPasses: 2, coldPasses: 1, flow: 'counter' },
  { kind: 'plate', hotPasses: 2, coldPasses: 2, flow: 'counter' },
  { kind: 'plate', hotPasses: 3, coldPasses: 1, flow: 'counter' },
];

/** A duty gentle enough for every arrangement. */
const DESIGN = { hotIn: 80, hotOut: 65, coldIn: 20, coldOut: 32, hotFlow: 20, coldFlow: 25, cleanU: 1000 };

describe('readings of known truth, without noise', () => {
  for (const arrangement of ARRANGEMENTS) {
    it(`give back U, clean U and fouling to 1e-6: ${JSON.stringify(arrangement)}`, () => {
      const exchanger = waterUnit({ arrangement, area: 30, design: DESIGN });
      const states = breathingStates(exchanger, 48, (hour) => -2e-5 + hour * 1e-5);
      const result = evaluate(exchanger, readingsOf(states));
      states.forEach((state, i) => {
        expect(reasonsOf(result.reasons[i]!)).toEqual([]);
        expect(relative(result.duty[i]!, state.duty)).toBeLessThan(1e-6);
        expect(relative(result.overallU[i]!, state.overallU)).toBeLessThan(1e-6);
        expect(relative(result.cleanU[i]!, state.cleanU)).toBeLessThan(1e-6);
        expect(Math.abs(result.foulingResistance[i]! - state.fouling) * state.cleanU).toBeLessThan(1e-6);
      });
    });
  }

  it('a unit cleaner than its reference has a negative fouling resistance: never clipped', () => {
    const exchanger = waterUnit();
    const state = solveForward(exchanger, { ...exchanger.design, fouling: -5e-5 });
    const result = evaluate(exchanger, readingsOf([state]));
    expect(result.foulingResistance[0]).toBeCloseTo(-5e-5, 12);
    expect(result.lostDuty[0]).toBeLessThan(0);
    expect(result.cleanliness[0]).toBeGreaterThan(1);
  });

  it('lost duty is what the clean unit transfers at the same inlets and flows less the actual duty', () => {
    const fluids = { hot: constantFluid(4000), cold: constantFluid(4200) };
    const exchanger = waterUnit(fluids);
    const at = { hotIn: 82, coldIn: 18, hotFlow: 19, coldFlow: 27 };
    const dirty = solveForward(exchanger, { ...at, fouling: 2e-4 });
    const clean = solveForward(exchanger, { ...at, fouling: 0 });
    const result = evaluate(exchanger, readingsOf([dirty]));
    expect(relative(result.lostDuty[0]!, clean.duty - dirty.duty)).toBeLessThan(1e-9);
  });

  it('the two routes agree on a closed balance: Q = UA·F·LMTD and Q = ε·Cmin·(Thi − Tci)', () => {
    const exchanger = waterUnit({
      arrangement: { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2, tubeSide: 'cold' },
      area: 30,
      design: DESIGN,
    });
    const state = solveForward(exchanger, { ...DESIGN, fouling: 1e-4 });
    const result = evaluate(exchanger, readingsOf([state]));
    const byHand = result.conductance[0]! * result.correction[0]! * result.lmtd[0]!;
    expect(relative(byHand, result.duty[0]!)).toBeLessThan(1e-9);
    expect(result.correction[0]).toBeLessThan(1);
  });

  it('equal capacity rates: the LMTD is the terminal difference itself (common practice)', () => {
    const fluid = constantFluid(4180);
    const design = {
      hotIn: 60,
      hotOut: 40,
      coldIn: 30,
      coldOut: 50,
      hotFlow: 10,
      coldFlow: 10,
      cleanU: null,
    };
    const exchanger = waterUnit({ hot: fluid, cold: fluid, design });
    const readings = makeReadingColumns(1);
    for (const sensor of ['hotIn', 'hotOut', 'coldIn', 'coldOut', 'hotFlow', 'coldFlow'] as const) {
      readings[sensor][0] = design[sensor];
    }
    const result = evaluate(exchanger, readings);
    expect(result.lmtd[0]).toBe(10);
    expect(result.duty[0]).toBeCloseTo(836_000, 6);
    expect(result.overallU[0]).toBeCloseTo(836_000 / 10 / 50, 9);
    expect(result.foulingResistance[0]).toBeCloseTo(0, 15);
  });

  it('a learned scale of the clean resistance moves Rf by its share of 1/Uc', () => {
    const exchanger = waterUnit();
    const state = solveForward(exchanger, { ...exchanger.design, fouling: 1e-4 });
    const scaled = evaluate(exchanger, readingsOf([state]), 1.1);
    expect(scaled.foulingResistance[0]).toBeCloseTo(1e-4 - 0.1 / state.cleanU, 12);
  });
});

describe('what is not measured', () => {
  const exchanger = waterUnit({ hotMeterAt: 'outlet', coldMeterAt: 'outlet' });
  const state = solveForward(exchanger, { ...exchanger.design, fouling: 1e-4 });

  for (const sensor of ['hotIn', 'hotOut', 'coldIn', 'coldOut', 'hotFlow', 'coldFlow'] as const) {
    it(`${sensor} is inferred from the balance, marked, and leaves no balance to check`, () => {
      const readings = readingsOf([state]);
      readings[sensor][0] = Number.NaN;
      const result = evaluate(exchanger, readings);
      expect(result.reasons[0]).toBe(0);
      expect(sensorsOf(result.inferred[0]!, SENSORS)).toEqual([sensor]);
      expect(result.balance[0]).toBeNaN();
      expect(Number.isNaN(result[sensor.startsWith('hot') ? 'hotDuty' : 'coldDuty'][0]!)).toBe(true);
      expect(Math.abs(result.foulingResistance[0]! - 1e-4)).toBeLessThan(1e-10);
    });

    it(`without ${sensor} the uncertainty of Rf is wider`, () => {
      const full = evaluate(exchanger, readingsOf([state]));
      const readings = readingsOf([state]);
      readings[sensor][0] = Number.NaN;
      const result = evaluate(exchanger, readings);
      expect(result.foulingResistanceUncertainty[0]).toBeGreaterThan(full.foulingResistanceUncertainty[0]!);
    });
  }

  it('volume flows are taken with the density at the meter, even where that temperature is inferred', () => {
    const water = makeFluid({ kind: 'water', pressure: null });
    const readings = readingsOf([state, state, state]);
    readings.flowBasis.fill(HOT_FLOW_IS_VOLUME | COLD_FLOW_IS_VOLUME);
    readings.hotFlow.fill(state.hotFlow / water.density!(state.hotOut));
    readings.coldFlow.fill(state.coldFlow / water.density!(state.coldOut));
    readings.hotOut[1] = Number.NaN;
    readings.coldOut[2] = Number.NaN;
    const result = evaluate(exchanger, readings);
    for (let i = 0; i < 3; i++) {
      expect(result.reasons[i]).toBe(0);
      expect(relative(result.hotMassFlow[i]!, state.hotFlow)).toBeLessThan(1e-7);
      expect(relative(result.coldMassFlow[i]!, state.coldFlow)).toBeLessThan(1e-7);
      expect(Math.abs(result.foulingResistance[i]! - 1e-4)).toBeLessThan(1e-9);
    }
  });

  it('two missing sensors, or a temperature and a flow, are too many', () => {
    const readings = readingsOf([state, state]);
    readings.hotFlow[0] = Number.NaN;
    readings.coldFlow[0] = Number.NaN;
    readings.hotIn[1] = Number.NaN;
    readings.hotFlow[1] = Number.NaN;
    expect([...evaluate(exchanger, readings).reasons]).toEqual([REASON_BIT.missing, REASON_BIT.missing]);
  });
});

describe('a balance that does not close', () => {
  const exchanger = waterUnit();
  const state = solveForward(exchanger, { ...exchanger.design, fouling: 1e-4 });

  it('is left out, with both duties and the balance kept to be shown', () => {
    const readings = readingsOf([{ ...state, coldFlow: state.coldFlow * 1.3 }]);
    const result = evaluate(exchanger, readings);
    expect(reasonsOf(result.reasons[0]!)).toEqual(['balance-not-closed']);
    expect(result.balance[0]).toBeCloseTo(-0.3 / 1.15, 6);
    expect(result.hotDuty[0]).toBeCloseTo(state.duty, 0);
  });

  it('a small imbalance is shared out by the sensors uncertainties: the reconciled duty lies between the two', () => {
    const readings = readingsOf([{ ...state, coldFlow: state.coldFlow * 1.04 }]);
    const result = evaluate(exchanger, readings);
    expect(result.reasons[0]).toBe(0);
    expect(result.duty[0]).toBeGreaterThan(result.hotDuty[0]!);
    expect(result.duty[0]).toBeLessThan(result.coldDuty[0]!);
    // Inverse-variance mean of the two (ASME PTC 12.5), each side's variance from flow and both its temperatures.
    const u = (duty: number, change: number) => duty * Math.sqrt(0.02 ** 2 + 2 * (0.2 / change) ** 2);
    const hot = u(result.hotDuty[0]!, state.hotIn - state.hotOut) ** -2;
    const cold = u(result.coldDuty[0]!, state.coldOut - state.coldIn) ** -2;
    const mean = (hot * result.hotDuty[0]! + cold * result.coldDuty[0]!) / (hot + cold);
    expect(relative(result.duty[0]!, mean)).toBeLessThan(1e-3);
  });

  it('sensors taken as exact leave the state as measured', () => {
    const exact = { absolute: 0, relative: 0, systematicShare: 0 };
    const sensors = Object.fromEntries(SENSORS.map((sensor) => [sensor, exact])) as Exchanger['sensors'];
    const readings = readingsOf([{ ...state, coldFlow: state.coldFlow * 1.04 }]);
    const result = evaluate({ ...exchanger, sensors }, readings);
    expect(result.reasons[0]).toBe(0);
    expect(relative(result.duty[0]!, result.hotDuty[0]!)).toBeLessThan(1e-9);
    expect(result.foulingResistanceUncertainty[0]).toBe(0);
  });
});
