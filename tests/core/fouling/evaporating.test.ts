import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { reasonsOf } from '@/lib/core/checks/reasons';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import type { FluidSpec } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import {
  drivingTemperatures,
  enthalpyRise,
  phaseChangeSide,
  streamCapacityRate,
} from '@/lib/core/fouling/enthalpy-change';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { sensorsOf } from '@/lib/core/fouling/evaluation-columns';
import { makeRandom } from '@/lib/core/stats/random';
import { standardDeviation } from '@/lib/core/stats/spread';
import {
  BOILING_DESIGN,
  constantFluid,
  readingsOf,
  solveForward,
  waterUnit,
} from '../../support/forward-readings';

const STEAM: FluidSpec = { kind: 'steam', pressure: null };
const HEAT = 4200;
const byTemperature = waterUnit({ hot: constantFluid(HEAT), cold: STEAM, area: 40, design: BOILING_DESIGN });
const byPressure = { ...byTemperature, cold: { kind: 'steam', pressure: 101_325 } as const };
const evaluate = (exchanger: typeof byTemperature, readings: ReturnType<typeof readingsOf>) =>
  evaluateReadings({ exchanger, settings: DEFAULT_CHECK_SETTINGS, readings });
const NONE = Number.NaN;
const atDesign = { ...BOILING_DESIGN, fouling: 0, duty: 0, overallU: 0, cleanU: 0 };
const reading = (change: Partial<typeof BOILING_DESIGN> = {}) => readingsOf([{ ...atDesign, ...change }]);

describe('an evaporating cold side', () => {
  it('is the hand calculation at Cr = 0: LMTD with F = 1, and NTU = −ln(1 − ε) (Incropera, 6th ed., eq. 11.35b)', () => {
    const result = evaluate(byTemperature, reading({ coldFlow: NONE }));
    const duty = 20 * HEAT * 25;
    const lmtd = 25 / Math.log(2);
    expect(reasonsOf(result.reasons[0]!)).toEqual([]);
    expect(result.duty[0]! / duty).toBeCloseTo(1, 9);
    expect(result.effectiveness[0]).toBeCloseTo(0.5, 9);
    expect(result.ntu[0]).toBeCloseTo(Math.LN2, 9);
    expect(result.lmtd[0]).toBeCloseTo(lmtd, 9);
    expect(result.correction[0]).toBeCloseTo(1, 9);
    expect(result.overallU[0]).toBeCloseTo(duty / lmtd / 40, 6);
  });

  it('takes in saturated feed 2256.5 kJ/kg, and feed of 20 °C 2592 kJ/kg (steam tables at 100 and 20 °C)', () => {
    const steam = makeFluid(STEAM);
    expect(enthalpyRise(steam, 100, 100) / 1e3).toBeCloseTo(2256.5, 0);
    expect(enthalpyRise(steam, NONE, 100)).toBe(enthalpyRise(steam, 100, 100));
    expect(enthalpyRise(steam, 103, 100)).toBe(enthalpyRise(steam, 100, 100));
    expect(enthalpyRise(steam, 20, 100) / 1e3).toBeCloseTo(2675.6 - 83.9, 0);
    const result = evaluate(byTemperature, reading({ coldIn: 20, coldFlow: NONE }));
    expect(result.reasons[0]).toBe(0);
    expect(result.coldMassFlow[0]).toBeCloseTo((20 * HEAT * 25) / 2591.7e3, 3);
    // Preheating the feed takes heat but no part of the mean temperature difference.
    expect(result.lmtd[0]).toBeCloseTo(25 / Math.log(2), 9);
  });

  it('needs neither flow nor inlet temperature of its own, and with a pressure not even its outlet’s', () => {
    const truth = solveForward(byPressure, { ...BOILING_DESIGN, fouling: 8e-5 });
    const readings = readingsOf([{ ...truth, coldIn: NONE, coldOut: NONE, coldFlow: NONE }]);
    const result = evaluate(byPressure, readings);
    expect(reasonsOf(result.reasons[0]!)).toEqual([]);
    expect(Math.abs(result.foulingResistance[0]! - 8e-5)).toBeLessThan(1e-10);
    expect(sensorsOf(result.inferred[0]!, SENSORS)).toEqual(['coldFlow']);
    expect(reasonsOf(evaluate(byTemperature, readings).reasons[0]!)).toEqual(['missing']);
    expect(sensorsOf(evaluate(byTemperature, readings).missing[0]!, SENSORS)).toEqual(['coldOut']);
  });

  it('with its steam flow measured has a balance to check, or does without the hot flow', () => {
    const evaporated = (20 * HEAT * 25) / 2256.5e3;
    const closed = evaluate(byTemperature, reading({ coldFlow: evaporated }));
    expect(closed.reasons[0]).toBe(0);
    expect(closed.balance[0]).toBeCloseTo(0, 3);
    const open = evaluate(byTemperature, reading({ coldFlow: 0.7 * evaporated }));
    expect(reasonsOf(open.reasons[0]!)).toEqual(['balance-not-closed']);
    const inferred = evaluate(byTemperature, reading({ coldFlow: evaporated, hotFlow: NONE }));
    expect(inferred.reasons[0]).toBe(0);
    expect(inferred.hotMassFlow[0]! / 20).toBeCloseTo(1, 3);
  });

  it('gives no figure where the hot stream is not above saturation', () => {
    expect(reasonsOf(evaluate(byTemperature, reading({ hotIn: 99, hotOut: 98 })).reasons[0]!)).toEqual([
      'reversed-temperatures',
    ]);
    expect(reasonsOf(evaluate(byTemperature, reading({ hotOut: 100.5 })).reasons[0]!)).toContain(
      'terminal-difference-too-small',
    );
  });

  it('is the mirror of a condensing hot side: the same differences give the same U', () => {
    const condenser = waterUnit({
      hot: STEAM,
      cold: constantFluid(HEAT),
      area: 40,
      design: { hotIn: 100, hotOut: 100, coldIn: 50, coldOut: 75, hotFlow: 0.93, coldFlow: 20, cleanU: 2000 },
    });
    const mirrored = evaluate(
      condenser,
      readingsOf([
        { ...atDesign, hotIn: 100, hotOut: 100, coldIn: 50, coldOut: 75, hotFlow: NONE, coldFlow: 20 },
      ]),
    );
    const result = evaluate(byTemperature, reading({ coldFlow: NONE }));
    for (const name of ['overallU', 'lmtd', 'ntu', 'foulingResistance', 'lostDuty'] as const)
      expect(result[name][0]! / mirrored[name][0]!).toBeCloseTo(1, 9);
    expect(result.overallUUncertainty[0]! / mirrored.overallUUncertainty[0]!).toBeCloseTo(1, 6);
  });

  it('of any fluid with a latent heat: what evaporates is duty over latent heat', () => {
    const refrigerant = {
      ...constantFluid(1400),
      kind: 'custom' as const,
      vaporisation: { latentHeat: 2e5, saturationTemperature: 5 },
    } as FluidSpec;
    const chiller = waterUnit({
      hot: constantFluid(HEAT),
      cold: refrigerant,
      area: 40,
      design: { hotIn: 12, hotOut: 7, coldIn: 5, coldOut: 5, hotFlow: 20, coldFlow: 2.1, cleanU: null },
    });
    const result = evaluate(
      chiller,
      reading({ hotIn: 12, hotOut: 7, coldIn: NONE, coldOut: NONE, coldFlow: NONE }),
    );
    expect(result.reasons[0]).toBe(0);
    expect(result.coldMassFlow[0]).toBeCloseTo((20 * HEAT * 5) / 2e5, 9);
    expect(result.foulingResistance[0]! * result.cleanU[0]!).toBeCloseTo(0, 9);
  });

  it('film is taken constant: clean U does not move with the steam flow', () => {
    const half = solveForward(byTemperature, { ...BOILING_DESIGN, coldFlow: 0.4, fouling: 0 });
    expect(half.cleanU).toBe(solveForward(byTemperature, { ...BOILING_DESIGN, fouling: 0 }).cleanU);
  });

  it('has the uncertainty of Rf that 20 000 draws show, within 3 %', () => {
    const random = makeRandom(20250101);
    const draws = 20_000;
    const readings = readingsOf(Array.from({ length: draws }, () => ({ ...atDesign, coldFlow: NONE })));
    for (const sensor of ['hotIn', 'hotOut', 'coldOut', 'hotFlow'] as const) {
      const { absolute, relative } = byTemperature.sensors[sensor];
      const sigma = absolute + relative * BOILING_DESIGN[sensor];
      readings[sensor].forEach((value, i) => {
        readings[sensor][i] = value + sigma * random.normal();
      });
    }
    readings.coldIn.fill(NONE);
    const settings = { ...DEFAULT_CHECK_SETTINGS, spikeThreshold: 1e9, frozenHours: 1e6 };
    const drawn = evaluateReadings({ exchanger: byTemperature, settings, readings, nominal: 0 });
    const stated = evaluate(byTemperature, reading({ coldIn: NONE, coldFlow: NONE }));
    const ratio = standardDeviation(drawn.foulingResistance) / stated.foulingResistanceUncertainty[0]!;
    expect(Math.abs(ratio - 1)).toBeLessThan(0.03);
  });
});

describe('a change of phase', () => {
  const water = makeFluid({ kind: 'water', pressure: null });
  const steam = makeFluid(STEAM);

  it('is on one side at most: Cr is undefined where neither stream has a capacity rate', () => {
    expect(phaseChangeSide({ hot: water, cold: water })).toBeNull();
    expect(phaseChangeSide({ hot: steam, cold: water })).toBe('hot');
    expect(phaseChangeSide({ hot: water, cold: steam })).toBe('cold');
    expect(() => phaseChangeSide({ hot: steam, cold: steam })).toThrow(RangeError);
  });

  it('puts both ends of its side at saturation and leaves the other side alone', () => {
    const ends = { hotIn: 120, hotOut: 90, coldIn: 40, coldOut: 80 };
    expect(drivingTemperatures({ hot: steam, cold: water }, ends)).toEqual({ ...ends, hotOut: 120 });
    expect(drivingTemperatures({ hot: water, cold: steam }, ends)).toEqual({ ...ends, coldIn: 80 });
    expect(drivingTemperatures({ hot: water, cold: water }, ends)).toEqual(ends);
    expect(streamCapacityRate(steam, 1e6, 0.5)).toBe(Number.POSITIVE_INFINITY);
    expect(streamCapacityRate(water, 1e6, 20)).toBe(5e4);
  });
});
