import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { scaledFactors } from '@/lib/core/clean/clean-reference';
import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { systematicLeft } from '@/lib/core/fouling/systematic-left';
import { standardUncertainty } from '@/lib/core/fouling/unit-model';
import { makeRandom } from '@/lib/core/stats/random';
import { standardDeviation } from '@/lib/core/stats/spread';
import { readingsOf, solveForward, waterUnit } from '../../support/forward-readings';

const DRAWS = 600;
const settings = { ...DEFAULT_CHECK_SETTINGS, balanceTolerance: 10, frozenHours: 1e6, spikeThreshold: 1e9 };

describe('systematic error with a learned clean reference', () => {
  const plate = waterUnit();
  const shell = waterUnit({
    arrangement: { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2, tubeSide: 'cold' },
    area: 30,
    design: { hotIn: 80, hotOut: 65, coldIn: 20, coldOut: 32, hotFlow: 20, coldFlow: 25, cleanU: 1000 },
  });
  it.each([
    { title: 'plate unit', unit: plate, share: 0.1 },
    { title: 'plate unit', unit: plate, share: 0.6 },
    { title: '1-2 shell-and-tube', unit: shell, share: 0.3 },
  ])(
    'is what is left of it when the same sensors learned the reference: $title, Rf = $share/Uc',
    ({ unit, share }) => {
      const clean = solveForward(unit, { ...unit.design, fouling: 0 });
      const fouled = solveForward(unit, { ...unit.design, fouling: share / unit.design.cleanU! });
      const random = makeRandom(99);
      const found: number[] = [];
      for (let draw = 0; draw < DRAWS; draw++) {
        const readings = readingsOf([clean, fouled]);
        for (const sensor of BALANCE_SENSORS) {
          const error = Math.sqrt(0.5) * random.normal();
          readings[sensor] = readings[sensor].map(
            (value) => value + error * standardUncertainty(unit.sensors[sensor], value),
          );
        }
        const known = evaluateReadings({ exchanger: unit, settings, readings, nominal: 0 });
        const cleanFactors = scaledFactors(1 / known.cleanliness[0]!);
        const learned = evaluateReadings({ exchanger: unit, settings, readings, nominal: 0, cleanFactors });
        found.push(learned.foulingResistance[1]!);
      }
      const stated = evaluateReadings({
        exchanger: unit,
        settings,
        readings: readingsOf([fouled]),
        nominal: 0,
      });
      const left = systematicLeft('learned', stated.cleanliness[0]!) * stated.foulingResistanceSystematic[0]!;
      // What is common is not quite what the two states share: a quarter either way.
      expect(standardDeviation(found) / left).toBeGreaterThan(0.75);
      expect(standardDeviation(found) / left).toBeLessThan(1.25);
    },
  );

  it('cancels nothing for a datasheet or a clean test, and never turns negative', () => {
    expect(systematicLeft('datasheet', 0.7)).toBe(1);
    expect(systematicLeft('test', 0.7)).toBe(1);
    expect(systematicLeft('learned', 1.05)).toBe(0);
  });
});
