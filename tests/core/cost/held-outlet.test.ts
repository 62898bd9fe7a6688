import { describe, expect, it } from 'vitest';
import { dailyLosses } from '@/lib/core/cost/daily-losses';
import { dayConditions, meanTemperature } from '@/lib/core/cost/day-conditions';
import { dutyAtFlow, flowRatioFor, heldOutletOf } from '@/lib/core/cost/held-outlet';
import type { Exchanger, LossSettings } from '@/lib/core/exchange/exchanger';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { FIRST, roundUnit, sameEveryDay } from '../../support/losing-unit';

/**
 * By hand, with the mean temperature difference (Incropera et al., 6th ed. 2007, eq. 11.14 and 11.15). A valve holds the hot
 * outlet at 60 °C: the duty is 40 kW/K · 30 K = 1200 kW. Today 20 kg/s of cold water (80 kW/K) go from 30 to 45 °C:
 * LMTD = (45 − 30)/ln(45/30) = 36.995 K, UA = 32.437 kW/K. With 10 kg/s (40 kW/K) they would go from 30 to 60 °C: both ends
 * 30 K apart, LMTD = 30 K, UA = 40 kW/K, which is the clean unit's: 2000 W/(m²·K) over 20 m², all of it the hot film's.
 */
const DAY = {
  hotIn: 90,
  hotOut: 60,
  coldIn: 30,
  coldOut: 45,
  duty: 1.2e6,
  cleanU: 2000,
  lostDuty: 1e5,
  foulingResistance: 20 / 32_437.2 - 1 / 2000,
  hotMassFlow: 10,
  coldMassFlow: 20,
};
const daily = sameEveryDay([0], DAY);
const hotFilmOnly = { hotShare: 1, wallShare: 0, hotExponent: 0.7, coldExponent: 0.7 };
const heldUnit = (change: Partial<Exchanger> = {}, losses: Partial<LossSettings> = {}) =>
  roundUnit({ area: 20, films: hotFilmOnly, ...change }, { heldOutlet: 'hot', ...losses });

function heldOf(unit: Exchanger, figures = DAY) {
  const fluids = { hot: makeFluid(unit.hot), cold: makeFluid(unit.cold) };
  const conditions = dayConditions(fluids, sameEveryDay([0], figures), 0);
  return { held: heldOutletOf(unit, fluids)!, conditions };
}

const lossesOf = (exchanger: Exchanger) =>
  dailyLosses({ exchanger, daily, cycles: [{ start: null, startDay: FIRST }] });

describe('the flow that the clean unit would need for the same held outlet', () => {
  it('is the one worked out by hand with the mean temperature difference', () => {
    const { held, conditions } = heldOf(heldUnit());
    expect(flowRatioFor(held, conditions, 0)).toBeCloseTo(0.5, 9);
    expect(flowRatioFor(held, conditions, DAY.foulingResistance)).toBeCloseTo(1, 4);
  });

  it('costs extra flow, and with a constant head its pumping; no heat', () => {
    const head = { hot: null, cold: 200_000 };
    const losses = lossesOf(heldUnit({}, { pumpHead: head, maximumFlow: { hot: null, cold: 25 } }));
    expect(losses.heat[0]).toBe(0);
    expect(losses.extraFlow[0]).toBeCloseTo(10, 7);
    // 200 kPa · 0.010 m³/s / 0.7 = 2857.14 W.
    expect(losses.pumping[0]! / 86_400).toBeCloseTo(2857.14, 2);
    expect(losses.marginLeft[0]).toBeCloseTo(1 - 20 / 25, 12);
  });

  it('without any pressure known says the flow alone', () => {
    const losses = lossesOf(heldUnit());
    expect(losses.pumping[0]).toBeNaN();
    expect(losses.marginLeft[0]).toBeNaN();
    expect(losses.extraFlow[0]).toBeCloseTo(10, 7);
  });

  it('satisfies Q = U·A·LMTD where the cold film weakens with its flow', () => {
    const films = { hotShare: 0.45, wallShare: 0.05, hotExponent: 0.7, coldExponent: 0.7 };
    const { held, conditions } = heldOf(heldUnit({ films }));
    const ratio = flowRatioFor(held, conditions, 0);
    expect(ratio).toBeGreaterThan(0.5);
    expect(ratio).toBeLessThan(1);
    const coldOut = 30 + 15 / ratio;
    const lmtd = (90 - coldOut - 30) / Math.log((90 - coldOut) / 30);
    const clean = 1 / ((0.5 + 0.5 * ratio ** -0.7) / 2000);
    expect((clean * 20 * lmtd) / 1.2e6).toBeCloseTo(1, 9);
  });

  it('is the other way round for a held cold outlet: the valve sets the hot flow', () => {
    // Mirror image about 60 °C: hot 80 kW/K from 90 to 75 °C, cold 40 kW/K from 30 to 60 °C.
    const mirrored = { ...DAY, hotOut: 75, coldOut: 60, hotMassFlow: 20, coldMassFlow: 10 };
    const films = { ...hotFilmOnly, hotShare: 0 };
    const unit = roundUnit({ area: 20, films }, { heldOutlet: 'cold' });
    const { held, conditions } = heldOf(unit, mirrored);
    expect(flowRatioFor(held, conditions, 0)).toBeCloseTo(0.5, 9);
  });

  it('is larger than today’s for a unit cleaner than its reference, and none where no flow would do', () => {
    const cleaner = heldOf(heldUnit(), { ...DAY, cleanU: 1500 });
    expect(flowRatioFor(cleaner.held, cleaner.conditions, 0)).toBeGreaterThan(1);
    // With endless cold flow LMTD = 30/ln(60/30) = 43.28 K: less than 27.7 kW/K never gives 1200 kW.
    const never = heldOf(heldUnit(), { ...DAY, cleanU: 1380 });
    expect(flowRatioFor(never.held, never.conditions, 0)).toBeNaN();
  });

  it('grows with the fouling, and gives back the duty it was found for', () => {
    const { held, conditions } = heldOf(heldUnit());
    const ratios = [0, 5e-5, 1e-4, 1.5e-4].map((fouling) => flowRatioFor(held, conditions, fouling));
    expect([...ratios].sort((a, b) => a - b)).toEqual(ratios);
    const duty = dutyAtFlow(held, conditions, { flowRatio: ratios[2]!, fouling: 1e-4 });
    expect(duty / 1.2e6).toBeCloseTo(1, 9);
  });
});

describe('a stream that the valve sets', () => {
  it('has the mean of its inlet and the outlet that the smaller flow leads to', () => {
    const { conditions } = heldOf(heldUnit());
    expect(meanTemperature(conditions, 'cold', 0.5)).toBeCloseTo(45, 9);
    expect(meanTemperature(conditions, 'hot')).toBeCloseTo(75, 9);
  });

  it('has no flow of its own where it condenses: steam follows the duty', () => {
    const steam: Exchanger['hot'] = { kind: 'steam', pressure: 300_000 };
    const unit = roundUnit({ hot: steam }, { heldOutlet: 'cold' });
    expect(heldOutletOf(unit, { hot: makeFluid(steam), cold: makeFluid(unit.cold) })).toBeNull();
  });
});
