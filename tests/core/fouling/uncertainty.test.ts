import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import type { Arrangement, Exchanger, Sensor } from '@/lib/core/exchange/exchanger';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { standardUncertainty } from '@/lib/core/fouling/unit-model';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { makeRandom } from '@/lib/core/stats/random';
import { standardDeviation } from '@/lib/core/stats/spread';
import { readingsOf, solveForward, type TrueState, waterUnit } from '../../support/forward-readings';

const SEED = 20250101;
/** The standard deviation of n normal draws is known to 1/√(2n): 0.35 % here, one standard deviation. */
const DRAWS = 40_000;
const SIX = ['hotIn', 'hotOut', 'coldIn', 'coldOut', 'hotFlow', 'coldFlow'] as const;
/** Screening off: every draw counts. */
const settings = {
  ...DEFAULT_CHECK_SETTINGS,
  balanceTolerance: 10,
  terminalDifferenceMultiple: -100,
  spikeThreshold: 1e9,
  frozenHours: 1e6,
};

/** The same true state read many times, each sensor with its own error; `share` scales each sensor's variance. */
function draws(exchanger: Exchanger, state: TrueState, share: (sensor: Sensor) => number): ReadingColumns {
  const random = makeRandom(SEED);
  const readings = readingsOf(Array.from({ length: DRAWS }, () => state));
  for (const sensor of SIX) {
    const sigma = standardUncertainty(exchanger.sensors[sensor], state[sensor]) * Math.sqrt(share(sensor));
    for (let i = 0; i < DRAWS; i++) readings[sensor][i]! += sigma * random.normal();
  }
  return readings;
}

const cases: { title: string; exchanger: Exchanger; without: Sensor | null }[] = [
  ...(
    [
      { kind: 'counter-current' },
      { kind: 'co-current' },
      { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2 },
      { kind: 'crossflow', mixed: 'none' },
    ] as Arrangement[]
  ).map((arrangement) => ({
    title: arrangement.kind,
    exchanger: waterUnit({
      arrangement,
      area: 30,
      design: { hotIn: 80, hotOut: 65, coldIn: 20, coldOut: 32, hotFlow: 20, coldFlow: 25, cleanU: 1000 },
    }),
    without: null,
  })),
  ...(['hotFlow', 'coldFlow', 'hotOut', 'coldIn'] as const).map((sensor) => ({
    title: `counter-current without ${sensor}`,
    exchanger: waterUnit(),
    without: sensor,
  })),
];

describe('standard uncertainties by first-order propagation against Monte Carlo, within 3 %', () => {
  for (const { title, exchanger, without } of cases) {
    const state = solveForward(exchanger, { ...exchanger.design, fouling: 1e-4 });
    const blank = (readings: ReadingColumns) => {
      if (without !== null) readings[without].fill(Number.NaN);
      return readings;
    };
    const evaluate = (readings: ReadingColumns) =>
      evaluateReadings({ exchanger, settings, readings: blank(readings), nominal: 0 });

    it(`${title}: u(Q), u(U), u(Rf)`, () => {
      const stated = evaluate(readingsOf([state]));
      const drawn = evaluate(draws(exchanger, state, () => 1));
      expect(Math.abs(standardDeviation(drawn.duty) / stated.dutyUncertainty[0]! - 1)).toBeLessThan(0.03);
      expect(Math.abs(standardDeviation(drawn.overallU) / stated.overallUUncertainty[0]! - 1)).toBeLessThan(
        0.03,
      );
      const fouling = standardDeviation(drawn.foulingResistance);
      expect(Math.abs(fouling / stated.foulingResistanceUncertainty[0]! - 1)).toBeLessThan(0.03);
    });

    it(`${title}: the systematic part is what is left when only the systematic errors are drawn`, () => {
      const mixed = {
        ...exchanger,
        sensors: {
          ...exchanger.sensors,
          hotIn: { ...exchanger.sensors.hotIn, systematicShare: 0.8 },
          coldFlow: { ...exchanger.sensors.coldFlow, systematicShare: 0.2 },
        },
      };
      const stated = evaluateReadings({
        exchanger: mixed,
        settings,
        readings: blank(readingsOf([state])),
        nominal: 0,
      });
      const drawn = evaluate(draws(mixed, state, (sensor) => mixed.sensors[sensor].systematicShare));
      const fouling = standardDeviation(drawn.foulingResistance);
      expect(Math.abs(fouling / stated.foulingResistanceSystematic[0]! - 1)).toBeLessThan(0.03);
    });
  }
});

describe('a sensor', () => {
  it('has an absolute part and a part in proportion to its value', () => {
    expect(standardUncertainty({ absolute: 0.2, relative: 0.01, systematicShare: 0.5 }, -50)).toBeCloseTo(
      0.7,
      12,
    );
  });
});
