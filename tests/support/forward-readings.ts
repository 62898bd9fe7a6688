import { cleanConductance } from '@/lib/core/clean/clean-conductance';
import { cleanReference } from '@/lib/core/clean/clean-reference';
import type { Exchanger, LossSettings, SensorUncertainty } from '@/lib/core/exchange/exchanger';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { outletDuty } from '@/lib/core/exchange/rating';
import type { FluidSpec } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { temperatureAfter } from '@/lib/core/fouling/enthalpy-change';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import { makeRandom } from '@/lib/core/stats/random';

/** Inlet temperatures [°C], mass flows [kg/s] and true fouling resistance [m²·K/W]. */
export type Conditions = {
  hotIn: number;
  coldIn: number;
  hotFlow: number;
  coldFlow: number;
  fouling: number;
};
export type TrueState = Conditions & {
  hotOut: number;
  coldOut: number;
  duty: number;
  overallU: number;
  cleanU: number;
};

export const WATER: FluidSpec = { kind: 'water', pressure: null };
export const HOUR_MS = 3_600_000;
export const DAY_MS = 24 * HOUR_MS;
/** Instant of the first reading of made-up records. */
export const EPOCH = Date.UTC(2025, 0, 6);

/** Nothing stated of pumps and valves. */
export const NO_LOSS_SETTINGS: LossSettings = {
  heldOutlet: null,
  pumpEfficiency: 0.7,
  cleanPressureDrop: { hot: null, cold: null },
  pumpHead: { hot: null, cold: null },
  maximumFlow: { hot: null, cold: null },
};

/** A fluid of constant specific heat [J/(kg·K)] and nothing else stated. */
export function constantFluid(specificHeat: number): FluidSpec {
  const properties = {
    temperatures: [20],
    specificHeat: [specificHeat],
    density: null,
    viscosity: null,
    conductivity: null,
  };
  return { kind: 'custom', name: `cp ${specificHeat}`, properties };
}

/** Duty point of an evaporator: 20 kg/s of hot water from 150 to 125 °C boil water at 100 °C. */
export const BOILING_DESIGN = {
  hotIn: 150,
  hotOut: 125,
  coldIn: 100,
  coldOut: 100,
  hotFlow: 20,
  coldFlow: 0.93,
  cleanU: 2000,
};

/** A water-to-water plate unit of 1-1 passes; any part replaced. */
export function waterUnit(change: Partial<Exchanger> = {}): Exchanger {
  const temperature: SensorUncertainty = { absolute: 0.2, relative: 0, systematicShare: 0.5 };
  const other: SensorUncertainty = { absolute: 0, relative: 0.02, systematicShare: 0.5 };
  const sensors = Object.fromEntries(SENSORS.map((sensor, i) => [sensor, i < 4 ? temperature : other]));
  return {
    arrangement: { kind: 'counter-current' },
    area: 50,
    hot: WATER,
    cold: WATER,
    hotMeterAt: 'inlet',
    coldMeterAt: 'inlet',
    design: { hotIn: 80, hotOut: 50, coldIn: 20, coldOut: 44, hotFlow: 20, coldFlow: 25, cleanU: 2800 },
    films: { hotShare: 0.45, wallShare: 0.05, hotExponent: 0.7, coldExponent: 0.7 },
    clean: 'datasheet',
    nominalFlows: { hot: null, cold: null },
    pressureDropExponents: { hot: 1.8, cold: 1.8 },
    limits: [{ kind: 'fouling-resistance', value: 2e-4 }],
    sensors: sensors as Exchanger['sensors'],
    losses: NO_LOSS_SETTINGS,
    ...change,
  };
}

/**
 * Solves the unit forward: outlets, duty, U and clean U at the given inlets, flows and fouling. A stream that changes phase
 * is saturated at both ends, at `hotIn` or `coldIn` where no pressure is stated; its flow is taken as given, not worked out.
 */
export function solveForward(exchanger: Exchanger, at: Conditions): TrueState {
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  const reference = cleanReference(exchanger, fluids);
  const condenses = fluids.hot.phaseChange !== null;
  const evaporates = fluids.cold.phaseChange !== null;
  const hotIn = fluids.hot.phaseChange?.saturationTemperature ?? at.hotIn;
  const coldIn = fluids.cold.phaseChange?.saturationTemperature ?? at.coldIn;
  const rate = evaporates
    ? at.hotFlow * fluids.hot.specificHeat(hotIn)
    : at.coldFlow * fluids.cold.specificHeat(coldIn);
  let duty = 0.5 * rate * (hotIn - coldIn);
  let state: TrueState = { ...at, hotOut: hotIn, coldOut: coldIn, duty, overallU: 0, cleanU: 0 };
  for (let step = 0; step < 500; step++) {
    const hotOut = condenses ? hotIn : temperatureAfter(fluids.hot, hotIn, -duty / at.hotFlow);
    const coldOut = evaporates ? coldIn : temperatureAfter(fluids.cold, coldIn, duty / at.coldFlow);
    const cleanU = cleanConductance(
      reference,
      at.hotFlow,
      at.coldFlow,
      (hotIn + hotOut) / 2,
      (coldIn + coldOut) / 2,
    );
    const overallU = 1 / (1 / cleanU + at.fouling);
    const next = outletDuty({
      arrangement: exchanger.arrangement,
      hotCapacityRate: condenses ? Number.POSITIVE_INFINITY : duty / (hotIn - hotOut),
      coldCapacityRate: evaporates ? Number.POSITIVE_INFINITY : duty / (coldOut - coldIn),
      hotIn,
      coldIn,
      conductance: overallU * exchanger.area,
    });
    state = { ...at, hotIn, hotOut, coldIn, coldOut, duty, overallU, cleanU };
    if (Math.abs(next - duty) <= 1e-15 * duty) break;
    duty = next;
  }
  return state;
}

/** Readings of true states, one an hour from `EPOCH`, without noise. */
export function readingsOf(states: TrueState[], stepMs = HOUR_MS): ReadingColumns {
  const readings = makeReadingColumns(states.length);
  states.forEach((state, i) => {
    readings.time[i] = EPOCH + i * stepMs;
    for (const sensor of ['hotIn', 'hotOut', 'coldIn', 'coldOut', 'hotFlow', 'coldFlow'] as const) {
      readings[sensor][i] = state[sensor];
    }
  });
  return readings;
}

/** Hourly states of a plant that breathes: seasons and days on the cold side, load swings, fouling as given by hour. */
export function breathingStates(
  exchanger: Exchanger,
  hours: number,
  foulingAt: (hour: number) => number,
): TrueState[] {
  const { design } = exchanger;
  return Array.from({ length: hours }, (_, hour) => {
    const day = hour / 24;
    const daily = Math.sin(2 * Math.PI * day);
    const load = 1 + 0.1 * Math.sin((2 * Math.PI * day) / 7) + 0.05 * daily;
    return solveForward(exchanger, {
      hotIn: design.hotIn + 1.5 * Math.sin(2 * Math.PI * day * 1.7),
      coldIn: design.coldIn + 4 * Math.sin((2 * Math.PI * day) / 365) + 1.5 * daily,
      hotFlow: design.hotFlow * load,
      coldFlow: design.coldFlow * (1 + 0.06 * Math.sin((2 * Math.PI * day) / 3.3)),
      fouling: foulingAt(hour),
    });
  });
}

/** Adds each sensor's random error (and none of its systematic one), optionally rounded as a historian would. */
export function withNoise(
  readings: ReadingColumns,
  exchanger: Exchanger,
  seed: number,
  resolution = 0,
): ReadingColumns {
  const random = makeRandom(seed);
  const noisy = { ...readings };
  for (const sensor of ['hotIn', 'hotOut', 'coldIn', 'coldOut', 'hotFlow', 'coldFlow'] as const) {
    const { absolute, relative, systematicShare } = exchanger.sensors[sensor];
    noisy[sensor] = readings[sensor].map((value) => {
      const sigma = (absolute + relative * Math.abs(value)) * Math.sqrt(1 - systematicShare);
      const read = value + sigma * random.normal();
      return resolution > 0 ? Math.round(read / resolution) * resolution : read;
    });
  }
  return noisy;
}
