import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import {
  cleanlinessOf,
  foulingAtCleanliness,
  foulingResistance,
} from '@/lib/core/fouling/conductance-figures';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { makeReadingColumns } from '@/lib/core/series/reading-columns';
import { constantFluid, waterUnit } from '../support/forward-readings';
import relations from './data/fouling-relations.json';

const [cleanliness, uncertainty] = relations.relations;

describe(`cleanliness factor and fouling resistance (${cleanliness!.source})`, () => {
  for (const [cleanU, fouling, factor] of cleanliness!.rows.values as [number, number, number][]) {
    it(`Uc = ${cleanU}, Rf = ${fouling}: ${factor}`, () => {
      expect(Math.abs(cleanlinessOf(fouling, cleanU) - factor)).toBeLessThan(5.1e-11);
      expect(Math.abs(foulingResistance(factor * cleanU, cleanU) - fouling)).toBeLessThan(1e-9 / cleanU);
      expect(Math.abs(foulingAtCleanliness(factor, cleanU) - fouling)).toBeLessThan(1e-9 / cleanU);
    });
  }
});

describe(`u(Rf) = (u(U)/U)/U for a fixed clean reference (${uncertainty!.source})`, () => {
  // Only the hot flow is uncertain and the film exponents are zero: Rf then moves with U alone.
  for (const [overallU, relative, expected] of uncertainty!.rows.values as [number, number, number][]) {
    it(`U = ${overallU}, ${100 * relative} %: ${expected}`, () => {
      const exact = { absolute: 0, relative: 0, systematicShare: 0 };
      const base = waterUnit();
      const [hotRate, rise] = [100_000, 20];
      const exchanger = waterUnit({
        hot: constantFluid(4000),
        cold: constantFluid(4000),
        area: (hotRate * rise) / 10 / overallU,
        design: {
          hotIn: 60,
          hotOut: 40,
          coldIn: 30,
          coldOut: 50,
          hotFlow: 25,
          coldFlow: 25,
          cleanU: overallU,
        },
        films: { ...base.films, hotExponent: 0, coldExponent: 0 },
        sensors: {
          ...base.sensors,
          hotIn: exact,
          hotOut: exact,
          coldIn: exact,
          coldOut: exact,
          coldFlow: { ...exact, relative },
          hotFlow: { ...exact, relative },
        },
      });
      const readings = makeReadingColumns(1);
      for (const sensor of ['hotIn', 'hotOut', 'coldIn', 'coldOut', 'coldFlow'] as const) {
        readings[sensor][0] = exchanger.design[sensor];
      }
      const result = evaluateReadings({ exchanger, settings: DEFAULT_CHECK_SETTINGS, readings });
      expect(Math.abs(result.overallUUncertainty[0]! / overallU - relative)).toBeLessThan(1e-6 * relative);
      expect(Math.abs(result.foulingResistanceUncertainty[0]! / expected - 1)).toBeLessThan(1e-6);
    });
  }
});

describe('an engine-oil cooler after service (Incropera et al., Fundamentals of Heat and Mass Transfer, problem 11.24)', () => {
  const exchanger = waterUnit({
    hot: constantFluid(2166),
    cold: constantFluid(4178),
    area: 5,
    design: { hotIn: 110, hotOut: 66, coldIn: 25, coldOut: 36.4, hotFlow: 0.1, coldFlow: 0.2, cleanU: 38 },
    films: { hotShare: 0.9, wallShare: 0.05, hotExponent: 0, coldExponent: 0 },
  });
  const readings = makeReadingColumns(1);
  for (const sensor of ['hotIn', 'hotOut', 'coldIn', 'hotFlow', 'coldFlow'] as const) {
    readings[sensor][0] = exchanger.design[sensor];
  }
  const result = evaluateReadings({ exchanger, settings: DEFAULT_CHECK_SETTINGS, readings });

  it('duty 9530 W, LMTD 55.7 K, U 34.2 W/(m²·K), fouling resistance 0.00292 m²·K/W, to the digits printed', () => {
    expect(result.duty[0]).toBeCloseTo(9530.4, 1);
    expect(Math.abs(result.lmtd[0]! - 55.7)).toBeLessThan(0.05);
    expect(Math.abs(result.overallU[0]! - 34.2)).toBeLessThan(0.05);
    // The book subtracts rounded figures; the exact difference is 0.0029156.
    expect(Math.abs(result.foulingResistance[0]! - 0.00292)).toBeLessThan(5e-6);
  });
});
