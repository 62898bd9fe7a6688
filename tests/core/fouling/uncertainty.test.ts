import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { AS_ON_DATASHEET, type CleanFactors } from '@/lib/core/clean/clean-reference';
import type { Arrangement, Exchanger, Sensor, Side } from '@/lib/core/exchange/exchanger';
import type { FluidSpec } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { standardUncertainty } from '@/lib/core/fouling/unit-model';
import {
  COLD_FLOW_IS_VOLUME,
  HOT_FLOW_IS_VOLUME,
  type ReadingColumns,
} from '@/lib/core/series/reading-columns';
import { makeRandom } from '@/lib/core/stats/random';
import { standardDeviation } from '@/lib/core/stats/spread';
import { readingsOf, solveForward, type TrueState, waterUnit } from '../../support/forward-readings';

const SEED = 20250101;
/** The standard deviation of n normal draws is known to 1/√(2n): 0.22 % here, one standard deviation. */
const DRAWS = 100_000;
const TOLERANCE = 0.03;
const SIX = ['hotIn', 'hotOut', 'coldIn', 'coldOut', 'hotFlow', 'coldFlow'] as const;
/** Screening off: every draw counts. */
const settings = {
  ...DEFAULT_CHECK_SETTINGS,
  balanceTolerance: 10,
  terminalDifferenceMultiple: -100,
  spikeHalfWindow: 1,
  spikeThreshold: 1e9,
  frozenHours: 1e6,
};

type Case = {
  title: string;
  exchanger: Exchanger;
  without?: Sensor;
  cleanFactors?: CleanFactors;
  /** Flows are read as volumes, by the density at the meter. */
  isVolume?: boolean;
  /** Where the forward solution of the unit's design point does not do. */
  state?: TrueState;
};

/** The same true state read many times, each sensor with its own error; `share` scales each sensor's variance. */
function draws(given: Case, state: TrueState, share: (sensor: Sensor) => number): ReadingColumns {
  const random = makeRandom(SEED);
  const readings = readOnce(given, state, DRAWS);
  for (const sensor of SIX) {
    const value = readings[sensor][0]!;
    // Relative errors are those of the reading, in whatever it reads.
    const sigma = standardUncertainty(given.exchanger.sensors[sensor], value) * Math.sqrt(share(sensor));
    for (let i = 0; i < DRAWS; i++) readings[sensor][i]! += sigma * random.normal();
  }
  return readings;
}

/** Without errors, as the unit's own sensors read it. */
function readOnce(
  { exchanger, without, isVolume = false }: Case,
  state: TrueState,
  count: number,
): ReadingColumns {
  const readings = readingsOf(Array.from({ length: count }, () => state));
  if (isVolume) {
    const density = (side: Side) =>
      makeFluid(exchanger[side]).density!(
        state[exchanger[`${side}MeterAt`] === 'inlet' ? (`${side}In` as const) : (`${side}Out` as const)],
      );
    readings.hotFlow.fill(state.hotFlow / density('hot'));
    readings.coldFlow.fill(state.coldFlow / density('cold'));
    readings.flowBasis.fill(HOT_FLOW_IS_VOLUME | COLD_FLOW_IS_VOLUME);
  }
  if (without !== undefined) readings[without].fill(Number.NaN);
  return readings;
}

const smallChanges = {
  hotIn: 80,
  hotOut: 65,
  coldIn: 20,
  coldOut: 32,
  hotFlow: 20,
  coldFlow: 25,
  cleanU: 1000,
};
const oil: FluidSpec = {
  kind: 'oil',
  density: 870,
  characterisationFactor: 11.8,
  viscosity: { temperatures: [40, 100], kinematicViscosities: [30e-6, 5e-6] },
};
const air: FluidSpec = { kind: 'air', pressure: null };

/** Standard uncertainties of a unit whose temperatures count most: what they do beside the rates must then be right too. */
function roughTemperatures(exchanger: Exchanger): Exchanger {
  const temperature = { absolute: 0.8, relative: 0, systematicShare: 0.5 };
  const flow = { absolute: 0, relative: 0.002, systematicShare: 0.5 };
  return {
    ...exchanger,
    sensors: {
      ...exchanger.sensors,
      hotIn: temperature,
      hotOut: temperature,
      coldIn: temperature,
      coldOut: temperature,
      hotFlow: flow,
      coldFlow: flow,
    },
  };
}

/** A rough saturation temperature beside a fine meter: the liquid that is taken as saturated must move with it. */
function roughSaturation(exchanger: Exchanger, place: 'hotIn' | 'coldOut'): Exchanger {
  const { sensors } = exchanger;
  return {
    ...exchanger,
    sensors: {
      ...sensors,
      [place]: { absolute: 1, relative: 0, systematicShare: 0.5 },
      hotFlow: { absolute: 0, relative: 0.003, systematicShare: 0.5 },
    },
  };
}

const oilCooler = waterUnit({
  arrangement: { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2, tubeSide: 'cold' },
  hot: oil,
  cold: { kind: 'seawater', salinity: 0.035 },
  area: 60,
  design: { hotIn: 95, hotOut: 80, coldIn: 18, coldOut: 30, hotFlow: 40, coldFlow: 24, cleanU: 350 },
  films: { hotShare: 0.75, wallShare: 0.05, hotExponent: 0.6, coldExponent: 0.8 },
});
const condenser = waterUnit({
  arrangement: { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2, tubeSide: 'cold' },
  hot: { kind: 'steam', pressure: null },
  area: 40,
  design: { hotIn: 105, hotOut: 105, coldIn: 25, coldOut: 60, hotFlow: 1.6, coldFlow: 25, cleanU: 2500 },
});
const boiler = waterUnit({
  cold: { kind: 'steam', pressure: null },
  area: 30,
  design: { hotIn: 150, hotOut: 130, coldIn: 110, coldOut: 110, hotFlow: 20, coldFlow: 0.77, cleanU: 2500 },
});
const airHeater = waterUnit({
  arrangement: { kind: 'crossflow', mixed: 'none' },
  hot: air,
  cold: air,
  hotMeterAt: 'outlet',
  coldMeterAt: 'inlet',
  area: 900,
  design: { hotIn: 220, hotOut: 120, coldIn: 20, coldOut: 110, hotFlow: 9, coldFlow: 10, cleanU: 22 },
});

const cases: Case[] = [
  { title: 'plate unit on water, both flows', exchanger: waterUnit() },
  { title: 'counter-current, small changes', exchanger: waterUnit({ area: 30, design: smallChanges }) },
  ...(
    [
      { kind: 'co-current' },
      { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2, tubeSide: 'cold' },
      { kind: 'crossflow', mixed: 'none' },
    ] as Arrangement[]
  ).map((arrangement) => ({
    title: arrangement.kind,
    exchanger: waterUnit({ arrangement, design: { ...waterUnit().design, cleanU: 1700 } }),
  })),
  ...(['hotFlow', 'coldFlow', 'hotOut', 'coldIn'] as const).map((sensor) => ({
    title: `plate unit on water without ${sensor}`,
    exchanger: waterUnit(),
    without: sensor,
  })),
  { title: '1-2 shell-and-tube, oil against seawater', exchanger: oilCooler },
  {
    title: 'the same, rough thermometers and fine meters: the films’ temperature',
    exchanger: roughTemperatures(oilCooler),
  },
  { title: 'steam condensing, condensate not metered', exchanger: condenser, without: 'hotFlow' },
  {
    title: 'water evaporating from saturated feed, steam not metered',
    exchanger: boiler,
    without: 'coldFlow',
    // The steam that balances 20 kg/s over 20 K is inferred, and so is that the feed is saturated.
    state: { ...boiler.design, coldIn: Number.NaN, fouling: 0, duty: 0, overallU: 0, cleanU: 0 },
  },
  {
    title: 'steam condensing to saturated liquid, both flows, rough saturation temperature',
    exchanger: roughSaturation(condenser, 'hotIn'),
    state: { ...solveForward(condenser, { ...condenser.design, fouling: 8e-5 }), hotOut: Number.NaN },
  },
  {
    title: 'water evaporating from saturated feed, both flows, rough saturation temperature',
    exchanger: roughSaturation(boiler, 'coldOut'),
    state: { ...solveForward(boiler, { ...boiler.design, fouling: 8e-5 }), coldIn: Number.NaN },
  },
  {
    title: 'equal capacity rates',
    exchanger: waterUnit({
      design: { hotIn: 70, hotOut: 45, coldIn: 20, coldOut: 45, hotFlow: 24, coldFlow: 24, cleanU: 2500 },
    }),
  },
  {
    title: 'clean reference of two learned films',
    exchanger: roughTemperatures(waterUnit({ hot: { kind: 'propylene-glycol', massFraction: 0.4 } })),
    cleanFactors: { hot: 1.25, wall: 1, cold: 0.8 },
  },
  { title: 'air against air by volume meters', exchanger: roughTemperatures(airHeater), isVolume: true },
  {
    title: 'the same, the temperature at the meter inferred',
    exchanger: roughTemperatures(airHeater),
    isVolume: true,
    without: 'hotOut',
  },
];

/** Shares differ, so that a share given to the wrong sensor shows. */
function mixedShares(exchanger: Exchanger): Exchanger {
  const { sensors } = exchanger;
  return {
    ...exchanger,
    sensors: {
      ...sensors,
      hotIn: { ...sensors.hotIn, systematicShare: 0.8 },
      coldFlow: { ...sensors.coldFlow, systematicShare: 0.2 },
    },
  };
}

describe('standard uncertainties by first-order propagation against Monte Carlo with 1e5 draws, within 3 %', () => {
  it.each(cases)('$title: u(Q), u(U), u(Rf) and its systematic part', (given) => {
    const exchanger = mixedShares(given.exchanger);
    const { cleanFactors = AS_ON_DATASHEET } = given;
    const state =
      given.state ??
      solveForward(exchanger, { ...exchanger.design, fouling: 0.2 / exchanger.design.cleanU! });
    const evaluate = (readings: ReadingColumns) =>
      evaluateReadings({ exchanger, settings, readings, nominal: 0, cleanFactors });
    const stated = evaluate(readOnce(given, state, 1));
    const drawn = evaluate(draws(given, state, () => 1));
    const systematic = evaluate(draws(given, state, (sensor) => exchanger.sensors[sensor].systematicShare));
    const off = (column: Float64Array, figure: Float64Array) => standardDeviation(column) / figure[0]! - 1;
    const differences = [
      off(drawn.duty, stated.dutyUncertainty),
      off(drawn.overallU, stated.overallUUncertainty),
      off(drawn.foulingResistance, stated.foulingResistanceUncertainty),
      off(systematic.foulingResistance, stated.foulingResistanceSystematic),
    ];
    for (const difference of differences) expect(Math.abs(difference)).toBeLessThan(TOLERANCE);
  });
});

describe('a sensor', () => {
  it('has an absolute part and a part in proportion to its value', () => {
    expect(standardUncertainty({ absolute: 0.2, relative: 0.01, systematicShare: 0.5 }, -50)).toBeCloseTo(
      0.7,
      12,
    );
  });
});
