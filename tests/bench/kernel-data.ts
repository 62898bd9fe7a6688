import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { REASON_BIT } from '@/lib/core/checks/reasons';
import { effectiveness } from '@/lib/core/exchange/effectiveness';
import type { Arrangement, Exchanger } from '@/lib/core/exchange/exchanger';
import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import type { Fluid, FluidSpec } from '@/lib/core/fluids/fluid';
import { makePropertyTable } from '@/lib/core/fluids/property-table';
import { makeSeawater } from '@/lib/core/fluids/seawater';
import { makeWater } from '@/lib/core/fluids/water';
import { temperatureAfter } from '@/lib/core/fouling/enthalpy-change';
import { EVALUATION_FLOAT_COLUMNS } from '@/lib/core/fouling/evaluation-columns';
import { unitModel } from '@/lib/core/fouling/unit-model';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import { makeRandom, type Random } from '@/lib/core/stats/random';

export const HOUR_MS = 3_600_000;
const START = Date.parse('2025-01-01T00:00:00Z');
export const READINGS = 8760;
const CAPACITY = 4180;

/** The kinds of unit that are measured, and what their rating formula is called outside. */
const KINDS = {
  counter: { kind: 'counter-current' },
  shell: { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2, tubeSide: 'cold' },
} as const satisfies Record<string, Arrangement>;
export type Kind = keyof typeof KINDS;

/** Columns of the day that both sides work out. */
export const DAILY = [
  'duty',
  'overallU',
  'cleanU',
  'foulingResistance',
  'lostDuty',
  'hotMassFlow',
  'coldMassFlow',
  'hotIn',
  'hotOut',
  'coldIn',
  'coldOut',
  'foulingResistanceUncertainty',
  'foulingResistanceSystematic',
  'foulingResistanceScatter',
  'balance',
] as const;

/** A unit with all six sensors: water against water, or against sea water in a shell with two tube passes. */
export function exchangerOf(kind: Kind): Exchanger {
  const temperature = { absolute: 0.15, relative: 0, systematicShare: 0.7 };
  const flow = { absolute: 0, relative: 0.01, systematicShare: 0.5 };
  const pressure = { absolute: 0, relative: 0.01, systematicShare: 0.5 };
  return {
    arrangement: KINDS[kind],
    area: 60,
    hot: { kind: 'water', pressure: null },
    cold: kind === 'shell' ? { kind: 'seawater', salinity: 0.035 } : { kind: 'water', pressure: null },
    hotMeterAt: 'inlet',
    coldMeterAt: 'inlet',
    design: { hotIn: 60, hotOut: 42, coldIn: 18, coldOut: 34, hotFlow: 40, coldFlow: 45, cleanU: 2600 },
    films: { hotShare: 0.45, wallShare: 0.1, hotExponent: 0.7, coldExponent: 0.65 },
    clean: 'datasheet',
    nominalFlows: { hot: null, cold: null },
    pressureDropExponents: { hot: 1.8, cold: 1.8 },
    limits: [],
    sensors: {
      hotIn: temperature,
      hotOut: temperature,
      coldIn: temperature,
      coldOut: temperature,
      hotFlow: flow,
      coldFlow: flow,
      hotPressureDrop: pressure,
      coldPressureDrop: pressure,
    },
    losses: {
      heldOutlet: null,
      pumpEfficiency: 0.7,
      cleanPressureDrop: { hot: null, cold: null },
      pumpHead: { hot: null, cold: null },
      maximumFlow: { hot: null, cold: null },
    },
  };
}

/** A year of hourly readings of one unit that fouls: seasons, load, noise; some rows missing, at rest, throttled, with a spike. */
export function yearOf(exchanger: Exchanger, seed: number): ReadingColumns {
  return recordOf(exchanger, seed, { count: READINGS, stepMs: HOUR_MS });
}

/** The same of any length, at any interval [ms]. */
export function recordOf(
  exchanger: Exchanger,
  seed: number,
  { count, stepMs }: { count: number; stepMs: number },
): ReadingColumns {
  const random = makeRandom(seed);
  const model = unitModel(exchanger, DEFAULT_CHECK_SETTINGS);
  const readings = makeReadingColumns(count);
  for (let i = 0; i < count; i++) {
    readings.time[i] = START + i * stepMs;
    const hours = (i * stepMs) / HOUR_MS;
    // Now and then a pause of a few hours, a throttled hour, an hour without a reading.
    const isAtRest = hours % 731 < 5;
    const load = Math.floor(hours) % 397 === 200 ? 0.2 : 0.85 + 0.1 * Math.sin((2 * Math.PI * hours) / 24);
    const season = Math.sin((2 * Math.PI * hours) / READINGS);
    const hotFlow = isAtRest ? 0.05 : 40 * load;
    const coldFlow = isAtRest ? 0.05 : 45 * (0.9 + 0.05 * season);
    const state = { hotIn: 60 + 2 * season, coldIn: 18 + 6 * season, hotFlow, coldFlow };
    const outlets = outletsOf(model, state, 1 / (1 / 2400 + 1.5e-4 * ((hours % 4000) / 4000)));
    writeRow(readings, i, { ...state, ...outlets }, random);
  }
  return readings;
}

type State = { hotIn: number; coldIn: number; hotFlow: number; coldFlow: number };

function outletsOf(model: ReturnType<typeof unitModel>, at: State, overallU: number) {
  const { arrangement, area } = model.exchanger;
  const [hotRate, coldRate] = [at.hotFlow * CAPACITY, at.coldFlow * CAPACITY];
  const [least, most] = [Math.min(hotRate, coldRate), Math.max(hotRate, coldRate)];
  const side = hotRate <= coldRate ? 'hot' : 'cold';
  const reached = effectiveness(arrangement, Math.min(20, (overallU * area) / least), least / most, side);
  const duty = reached * least * (at.hotIn - at.coldIn);
  return {
    hotOut: temperatureAfter(model.hot, at.hotIn, -duty / at.hotFlow),
    coldOut: temperatureAfter(model.cold, at.coldIn, duty / at.coldFlow),
  };
}

function writeRow(
  readings: ReadingColumns,
  i: number,
  state: State & { hotOut: number; coldOut: number },
  random: Random,
): void {
  if (i % 613 === 300) return;
  for (const sensor of BALANCE_SENSORS) {
    const isFlow = sensor === 'hotFlow' || sensor === 'coldFlow';
    const noise = isFlow ? 0.004 * state[sensor] * random.normal() : 0.06 * random.normal();
    readings[sensor][i] = state[sensor] + noise;
  }
  if (i % 509 === 100) readings.coldOut[i]! += 4;
}

/** Everything another program needs to work out the same: parameters as plain data. */
export function parametersOf(exchanger: Exchanger, kind: Kind, units: number) {
  const settings = DEFAULT_CHECK_SETTINGS;
  const { clean } = unitModel(exchanger, settings);
  const film = ({ resistance, exponent, flow, properties }: typeof clean.hot) => ({
    resistance,
    exponent,
    flow,
    conductivity: properties!.conductivity,
    specificHeat: properties!.specificHeat,
    viscosity: properties!.viscosity,
  });
  return {
    kind,
    units,
    readings: READINGS,
    area: exchanger.area,
    design: exchanger.design,
    hot: tablesOf(exchanger.hot),
    cold: tablesOf(exchanger.cold),
    clean: { hot: film(clean.hot), cold: film(clean.cold), wall: clean.wall },
    sensors: BALANCE_SENSORS.map((sensor) => exchanger.sensors[sensor]),
    settings,
    reasons: REASON_BIT,
    columns: EVALUATION_FLOAT_COLUMNS,
    dailyColumns: DAILY,
  };
}

/** The very tables that the product evaluates, made from the same formulas. */
function tablesOf(spec: FluidSpec) {
  const fluid: Fluid = spec.kind === 'seawater' ? makeSeawater(spec.salinity) : makeWater(null);
  const table = (property: (t: number) => number) => {
    const { intervals, coefficients } = makePropertyTable(property, fluid.minimum, fluid.maximum);
    return { intervals, coefficients: [...coefficients] };
  };
  return {
    minimum: fluid.minimum,
    maximum: fluid.maximum,
    start: fluid.enthalpy(fluid.minimum),
    specificHeat: table(fluid.specificHeat),
    density: table(fluid.density!),
    viscosity: table(fluid.viscosity!),
    conductivity: table(fluid.conductivity!),
  };
}
