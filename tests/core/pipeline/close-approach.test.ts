import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { APPROACH_DAYS, conductanceCertainty } from '@/lib/core/pipeline/close-approach';
import { standardDeviation } from '@/lib/core/stats/spread';
import {
  constantFluid,
  DAY_MS,
  EPOCH,
  HOUR_MS,
  readingsOf,
  solveForward,
  waterUnit,
  withNoise,
} from '../../support/forward-readings';

const FLUIDS = { hot: constantFluid(4180), cold: constantFluid(4180) };

function certainty(exchanger: Exchanger, hours = 48) {
  const states = Array.from({ length: hours }, () =>
    solveForward(exchanger, { ...exchanger.design, fouling: 0 }),
  );
  const readings = readingsOf(states);
  // Values that stand still would be taken for frozen sensors: a hair of movement.
  for (const name of ['hotIn', 'hotOut', 'coldIn', 'coldOut', 'hotFlow', 'coldFlow'] as const)
    readings[name] = readings[name].map((value, i) => value * (1 + 1e-6 * Math.sin(i)));
  const evaluation = evaluateReadings({ exchanger, settings: DEFAULT_CHECK_SETTINGS, readings });
  return conductanceCertainty({ evaluation, readings, exchanger, now: EPOCH + hours * HOUR_MS });
}

describe('how well U is determined', () => {
  it('is nothing to speak of with wide approaches', () => {
    const { approach, relativeUncertainty, cause } = certainty(waterUnit(FLUIDS))!;
    expect(approach.warm).toBe('hotOut');
    expect(approach.uncertainty).toBeCloseTo(0.2 * Math.SQRT2, 12);
    expect(relativeUncertainty).toBeLessThan(0.05);
    expect(cause).toBeNull();
  });

  it('is lost at a close approach: the uncertainty of U is what Monte Carlo gives', () => {
    // Equal flows and 33.5 transfer units: the approach at either end is 60 K / (1 + NTU) = 1.7 K.
    const exchanger = waterUnit({
      ...FLUIDS,
      area: 1000,
      design: { ...waterUnit().design, hotFlow: 20, coldFlow: 20 },
    });
    const { approach, relativeUncertainty, cause, tooClose } = certainty(exchanger)!;
    expect(approach.difference).toBeLessThan(10 * approach.uncertainty);
    expect(cause).toBe('approach');
    expect(tooClose).toBe(0);
    const states = Array.from({ length: 4000 }, () =>
      solveForward(exchanger, { ...exchanger.design, fouling: 0 }),
    );
    const whole = structuredClone(exchanger);
    for (const sensor of Object.values(whole.sensors)) sensor.systematicShare = 0;
    const noisy = withNoise(readingsOf(states), whole, 3);
    const drawn = evaluateReadings({ exchanger: whole, settings: DEFAULT_CHECK_SETTINGS, readings: noisy });
    const values = drawn.overallU.filter((value) => !Number.isNaN(value));
    expect(
      Math.abs(standardDeviation(values) / (relativeUncertainty * exchanger.design.cleanU!) - 1),
    ).toBeLessThan(0.15);
  });

  it('counts readings left out for their approach, and still says what it is', () => {
    const exchanger = waterUnit({
      ...FLUIDS,
      area: 3000,
      design: { ...waterUnit().design, hotFlow: 20, coldFlow: 20 },
    });
    const { approach, readings, tooClose, cause } = certainty(exchanger)!;
    expect(approach.difference / approach.uncertainty).toBeLessThan(3);
    expect(tooClose).toBe(readings);
    expect(cause).toBe('approach');
  });

  it('is spoken of where a tenth of the readings is left out for it, even if the rest determine U', () => {
    // A ratio of capacity rates of 0.4: an approach of three uncertainties leaves U known to 8 %.
    const design = { ...waterUnit().design, hotFlow: 10, coldFlow: 24.6 };
    const { relativeUncertainty, tooClose, readings, cause } = certainty(
      waterUnit({ ...FLUIDS, area: 96, design }),
    )!;
    expect(relativeUncertainty).toBeLessThan(0.1);
    expect(tooClose).toBeGreaterThan(0.1 * readings);
    expect(cause).toBe('approach');
  });

  it('is lost near the greatest effectiveness of co-current streams, however wide the inlets', () => {
    const exchanger = waterUnit({
      ...FLUIDS,
      arrangement: { kind: 'co-current' },
      area: 100,
      design: { ...waterUnit().design, hotFlow: 20, coldFlow: 20 },
    });
    const { approach, effectiveness, greatestEffectiveness, cause } = certainty(exchanger)!;
    expect(greatestEffectiveness).toBeCloseTo(0.5, 6);
    expect(effectiveness).toBeGreaterThan(0.95 * greatestEffectiveness);
    expect([approach.warm, approach.cold]).toEqual(['hotOut', 'coldOut']);
    expect(cause).not.toBeNull();
  });

  it('is lost near the greatest effectiveness of a shell with two tube passes, where no approach is close', () => {
    const exchanger = waterUnit({
      ...FLUIDS,
      arrangement: { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2, tubeSide: 'cold' },
      area: 130,
      design: { ...waterUnit().design, hotFlow: 20, coldFlow: 20 },
    });
    const { approach, relativeUncertainty, cause } = certainty(exchanger)!;
    expect(approach.difference).toBeGreaterThan(10 * approach.uncertainty);
    expect(relativeUncertainty).toBeGreaterThan(0.1);
    expect(cause).toBe('effectiveness');
  });

  it('has nothing to say without readings of the last days', () => {
    const exchanger = waterUnit(FLUIDS);
    const readings = readingsOf([solveForward(exchanger, { ...exchanger.design, fouling: 0 })]);
    const evaluation = evaluateReadings({ exchanger, settings: DEFAULT_CHECK_SETTINGS, readings });
    const now = EPOCH + APPROACH_DAYS * DAY_MS;
    expect(conductanceCertainty({ evaluation, readings, exchanger, now: now + 1 })).toBeNull();
    expect(conductanceCertainty({ evaluation, readings, exchanger, now: now - 1 })).not.toBeNull();
  });
});
