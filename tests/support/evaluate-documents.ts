import fc from 'fast-check';
import { AppError } from '@/lib/contract/app-error';
import { toExchanger } from '@/lib/contract/exchanger-from-unit';
import { type Unit, unitSchema } from '@/lib/contract/fleet-file';
import type { Quantity } from '@/lib/contract/quantity';
import type { Exchanger, Side } from '@/lib/core/exchange/exchanger';
import type { Fluid } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { makeRandom } from '@/lib/core/stats/random';
import { HOUR_MS } from './forward-readings';

/** An evaluate request as plain data, every figure in the SI units of `IN_US`. */
export type EvaluateDocument = { unit: Unit; readings: Record<string, unknown>[] };

const START = Date.parse('2026-03-01T00:00:00Z');
/** Readings leap from one to the next: so far apart that each stands for a unit that has settled. */
const STEP_MS = 12 * HOUR_MS;

const q = (value: number, unit: string): Quantity => ({ value, unit });

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });

const fluid = fc.constantFrom<Unit['hot'][]>(
  { fluid: 'water' },
  { fluid: 'water', pressure: q(600, 'kPa') },
  { fluid: 'seawater' },
  { fluid: 'seawater', concentration: 0.04 },
  { fluid: 'ethylene-glycol', concentration: 0.3 },
  { fluid: 'propylene-glycol', concentration: 0.4 },
  { fluid: 'oil', density: q(870, 'kg/m3') },
  { fluid: 'oil', density: q(830, 'kg/m3'), characterisationFactor: 12.2 },
  { fluid: 'air' },
  { fluid: 'custom', name: 'brine', properties: { specificHeat: q(3.4, 'kJ/(kg.K)') } },
  {
    fluid: 'custom',
    properties: {
      table: [20, 60, 120].map((temperature) => ({
        temperature: q(temperature, 'Cel'),
        specificHeat: q(2 + temperature / 200, 'kJ/(kg.K)'),
        density: q(900 - temperature / 2, 'kg/m3'),
        viscosity: q(8 / (1 + temperature / 20), 'mPa.s'),
        conductivity: q(0.13, 'W/(m.K)'),
      })),
    },
  },
);
const hotStream = fc.oneof(
  { weight: 6, arbitrary: fluid },
  {
    weight: 1,
    arbitrary: fc.constantFrom<Unit['hot'][]>(
      { fluid: 'steam' },
      { fluid: 'steam', pressure: q(250, 'kPa') },
    ),
  },
);
/** Water that evaporates at 20 kPa, or at whatever its outlet thermometer says. */
const coldStream = fc.oneof(
  { weight: 8, arbitrary: fluid },
  {
    weight: 1,
    arbitrary: fc.constantFrom<Unit['hot'][]>({ fluid: 'steam' }, { fluid: 'steam', pressure: q(20, 'kPa') }),
  },
);

const arrangement = fc.oneof(
  fc.constantFrom<Unit['arrangement'][]>(
    { kind: 'counter-current' },
    { kind: 'co-current' },
    { kind: 'shell-and-tube' },
    { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 4 },
    { kind: 'shell-and-tube', shellPasses: 2, tubePasses: 4 },
    { kind: 'shell-and-tube', shellPasses: 3, tubePasses: 3 },
  ),
  fc
    .constantFrom(undefined, 'none' as const, 'hot' as const, 'cold' as const, 'both' as const)
    .map((mixed) => ({ kind: 'crossflow' as const, ...(mixed === undefined ? {} : { mixed }) })),
  fc
    .constantFrom([1, 1], [2, 1], [1, 2], [2, 2], [3, 1], [1, 3])
    .map(([hotPasses, coldPasses]) => ({ kind: 'plate' as const, hotPasses, coldPasses })),
);

const size = fc.oneof(
  between(2, 400).map((area) => ({ area: q(area, 'm2') })),
  fc.record({ count: fc.integer({ min: 3, max: 400 }), areaEach: between(0.1, 2) }).map((plates) => ({
    plates: { count: plates.count, areaEach: q(plates.areaEach, 'm2') },
  })),
);

const films = fc.record(
  {
    hotShare: between(0.1, 0.6),
    wallShare: between(0, 0.3),
    hotExponent: between(0, 1),
    coldExponent: between(0, 1),
  },
  { requiredKeys: [] },
);

const limit = fc.constantFrom<Unit['limits']>(
  { kind: 'fouling-resistance', value: q(2e-4, 'm2.K/W') },
  { kind: 'cleanliness', below: 0.7 },
  { kind: 'outlet-temperature', stream: 'cold', below: q(25, 'Cel') },
  { kind: 'outlet-temperature', stream: 'hot', above: q(70, 'Cel') },
  { kind: 'pressure-drop', stream: 'hot', above: q(80, 'kPa') },
);

const temperatureSensor = maybe(fc.record({ uncertainty: between(0.02, 0.5).map((value) => q(value, 'K')) }));
const flowSensor = maybe(
  fc.record(
    {
      uncertainty: fc.oneof(
        between(0.002, 0.05),
        between(0.002, 0.3).map((value) => q(value, 'kg/s')),
        between(0.01, 1).map((value) => q(value, 'm3/h')),
      ),
      at: fc.constantFrom('inlet' as const, 'outlet' as const),
      systematicShare: between(0, 1),
    },
    { requiredKeys: [] },
  ),
);
const sensors = maybe(
  fc.record({
    hotIn: temperatureSensor,
    coldOut: temperatureSensor,
    hotFlow: flowSensor,
    coldFlow: flowSensor,
  }),
);

const nozzles = maybe(
  fc.record({
    hotIn: fc.constantFrom('top' as const, 'bottom' as const),
    coldIn: fc.constantFrom('top' as const, 'bottom' as const),
  }),
);

/** The unit's parts that hang on nothing else, and shares that place its duty point between its inlets. */
const parts = fc.record({
  arrangement,
  size,
  hot: hotStream,
  cold: coldStream,
  films: maybe(films),
  limits: fc.array(limit, { minLength: 1, maxLength: 3 }),
  sensors,
  nozzles,
  clean: maybe(fc.constantFrom('datasheet' as const, 'learned' as const)),
  hotIn: between(65, 95),
  coldIn: between(21, 35),
  hotFall: between(0.08, 0.5),
  coldRise: between(0.08, 0.5),
  hotFlow: between(0.5, 60),
  cleanU: maybe(between(50, 6000)),
  isVolume: fc.boolean(),
});

type Parts = typeof parts extends fc.Arbitrary<infer T> ? T : never;

const withoutNothing = <T extends object>(object: T) =>
  Object.fromEntries(Object.entries(object).filter(([, value]) => value !== undefined)) as T;

/** Saturation at 250 kPa and at 20 kPa [°C] (IAPWS-IF97), and about the latent heat there [J/kg]. */
const CONDENSING = { temperature: 127.41, latentHeat: 2.18e6 };
const EVAPORATING = { temperature: 60.06, latentHeat: 2.36e6 };
/** About the specific heat of water [J/(kg·K)]: near enough for a duty point. */
const HEAT = 4180;

/** The duty point of the datasheet [°C, kg/s], its balance about closed. */
function designOf({ hot, cold, hotFall, coldRise, ...given }: Parts) {
  const isCondensing = hot.fluid === 'steam';
  const isEvaporating = cold.fluid === 'steam';
  const hotIn = isCondensing ? CONDENSING.temperature : given.hotIn + (isEvaporating ? 15 : 0);
  const lowest = isEvaporating ? EVAPORATING.temperature : given.coldIn;
  const hotOut = isCondensing ? hotIn : hotIn - hotFall * (hotIn - lowest);
  const coldIn = isEvaporating ? EVAPORATING.temperature - 3 : given.coldIn;
  const coldOut = isEvaporating ? EVAPORATING.temperature : coldIn + coldRise * (hotIn - coldIn);
  const hotFlow = isCondensing ? 0.05 * given.hotFlow : given.hotFlow;
  const duty = hotFlow * (isCondensing ? CONDENSING.latentHeat : HEAT * (hotIn - hotOut));
  const coldFlow = duty / (isEvaporating ? EVAPORATING.latentHeat : HEAT * (coldOut - coldIn));
  return { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow };
}

/** A datasheet of these parts; null where its figures cannot be (a refusal that names fields). */
function unitOf(given: Parts): Unit | null {
  const { hotFall, coldRise, hotFlow, cleanU, isVolume, size: own, hotIn, coldIn, ...rest } = given;
  const design = designOf(given);
  const isLiquid = !['custom', 'air', 'steam'].includes(rest.cold.fluid);
  const unit = unitSchema.parse({
    tag: 'P-1',
    ...withoutNothing(rest),
    ...own,
    design: withoutNothing({
      hotIn: q(design.hotIn, 'Cel'),
      hotOut: q(design.hotOut, 'Cel'),
      coldIn: q(design.coldIn, 'Cel'),
      coldOut: q(design.coldOut, 'Cel'),
      hotFlow: q(design.hotFlow, 'kg/s'),
      coldFlow: isVolume && isLiquid ? q(design.coldFlow * 3.6, 'm3/h') : q(design.coldFlow, 'kg/s'),
      cleanU: cleanU === undefined ? undefined : q(cleanU, 'W/(m2.K)'),
    }),
  });
  try {
    toExchanger(unit);
    return unit;
  } catch (error) {
    if (error instanceof AppError) return null;
    throw error;
  }
}

const ABSURD = [0, -0.1, 20, -300, 9999, 1e300, -1e300, 1e-300];

type Random = ReturnType<typeof makeRandom>;
type Made = { exchanger: Exchanger; fluids: Record<Side, Fluid> };

/** One reading about the duty point whose balance nearly closes [°C, kg/s]; NaN where there is no enthalpy. */
function stateOf({ exchanger, fluids }: Made, share: (low: number, high: number) => number) {
  const { design } = exchanger;
  const condensing = fluids.hot.phaseChange;
  const evaporating = fluids.cold.phaseChange;
  const hotIn = condensing?.saturationTemperature ?? design.hotIn + share(-4, 4);
  const coldIn = design.coldIn + share(-1, 2);
  const hotFlow = design.hotFlow * share(0.6, 1.3);
  const hotOut = condensing ? hotIn : hotIn - (design.hotIn - design.hotOut) * share(0.7, 1.2);
  const drop = condensing
    ? condensing.vapourEnthalpy(hotIn) - condensing.liquidEnthalpy(hotIn)
    : fluids.hot.enthalpy(hotIn) - fluids.hot.enthalpy(hotOut);
  const duty = hotFlow * drop * share(0.98, 1.02);
  if (evaporating) {
    const coldOut = evaporating.saturationTemperature ?? design.coldOut + share(-0.5, 0.5);
    const coldFlow = duty / (evaporating.vapourEnthalpy(coldOut) - fluids.cold.enthalpy(coldIn));
    return { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow };
  }
  const coldFlow = design.coldFlow * share(0.6, 1.3);
  const rise = duty / (coldFlow * fluids.cold.specificHeat((design.coldIn + design.coldOut) / 2));
  return { hotIn, hotOut, coldIn, coldOut: coldIn + rise, hotFlow, coldFlow };
}

/** Such readings: some with a sensor less, some with an absurd value, some flows as volume, none in time order. */
function readingsOf(unit: Unit, seed: number, count: number): Record<string, unknown>[] {
  const random = makeRandom(seed);
  const exchanger = toExchanger(unit);
  const made = { exchanger, fluids: { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) } };
  const readings = Array.from({ length: count }, (_, i) => ({
    time: new Date(START + i * STEP_MS).toISOString(),
    ...spoiled(valuesOf(made, random), random),
  }));
  return readings.sort(() => random.uniform() - 0.5);
}

type Values = Record<string, Quantity | null>;

function valuesOf(made: Made, random: Random): Values {
  const share = (low: number, high: number) => low + (high - low) * random.uniform();
  const state = stateOf(made, share);
  const meter = made.exchanger.coldMeterAt === 'inlet' ? state.coldIn : state.coldOut;
  const density = made.fluids.cold.density?.(meter) ?? Number.NaN;
  const isVolume = random.uniform() < 0.4 && density > 0;
  return {
    hotIn: q(state.hotIn, 'Cel'),
    hotOut: q(state.hotOut, 'Cel'),
    coldIn: q(state.coldIn, 'Cel'),
    // Outside a fluid's range there is no enthalpy, and then no outlet to state.
    coldOut: Number.isFinite(state.coldOut) ? q(state.coldOut, 'Cel') : null,
    hotFlow: q(state.hotFlow, 'kg/s'),
    coldFlow: flowOf(state.coldFlow, isVolume ? density : null),
    hotPressureDrop: q(share(5, 90), 'kPa'),
  };
}

function flowOf(massFlow: number, density: number | null): Quantity | null {
  if (!Number.isFinite(massFlow)) return null;
  return density === null ? q(massFlow, 'kg/s') : q((massFlow / density) * 3600, 'm3/h');
}

function spoiled(values: Values, random: Random): Values {
  const names = Object.keys(values);
  const pick = <T>(list: readonly T[]) => list[Math.floor(random.uniform() * list.length)]!;
  if (random.uniform() < 0.2) values[pick(names)] = null;
  if (random.uniform() < 0.15) delete values[pick(names)];
  const absurd = pick(names);
  const whole = values[absurd];
  if (whole && random.uniform() < 0.15) values[absurd] = q(pick(ABSURD), whole.unit);
  return values;
}

/** Valid units of any kind of the contract, each with readings. */
export function evaluateDocuments(count: number): fc.Arbitrary<EvaluateDocument> {
  return fc
    .record({ given: parts, seed: fc.nat() })
    .map(({ given, seed }) => ({ unit: unitOf(given), seed }))
    .filter(({ unit }) => unit !== null)
    .map(({ unit, seed }) => ({ unit: unit!, readings: readingsOf(unit!, seed, count) }));
}

/** Definitions of the US units (NIST SP 811 (2008), appendix B; international table Btu). */
const POUND = 0.45359237;
const FOOT = 0.3048;
const GALLON = 231 * 0.0254 ** 3;
const BTU = 1055.05585262;
const PSI = (POUND * 9.80665) / 0.0254 ** 2;
const DEGREE = 5 / 9;

/** The US unit that stands for each SI unit of a document, and how many SI units it is. */
const IN_US: Record<string, [unit: string, size: number]> = {
  K: ['[degF]', DEGREE],
  'kg/s': ['[lb_av]/h', POUND / 3600],
  'm3/h': ['[gal_us]/min', GALLON * 60],
  m2: ['[ft_i]2', FOOT ** 2],
  kPa: ['[psi]', PSI / 1000],
  'kg/m3': ['[lb_av]/[ft_i]3', POUND / FOOT ** 3],
  'kJ/(kg.K)': ['[Btu_IT]/([lb_av].[degF])', BTU / (POUND * DEGREE) / 1000],
  'mPa.s': ['[lb_av]/([ft_i].h)', (POUND / (FOOT * 3600)) * 1000],
  'W/(m.K)': ['[Btu_IT]/(h.[ft_i].[degF])', BTU / (3600 * FOOT * DEGREE)],
  'W/(m2.K)': ['[Btu_IT]/(h.[ft_i]2.[degF])', BTU / (3600 * FOOT ** 2 * DEGREE)],
  'm2.K/W': ['h.[ft_i]2.[degF]/[Btu_IT]', (3600 * FOOT ** 2 * DEGREE) / BTU],
};

/** The same document with every quantity in US units. */
export function inUsUnits<T>(document: T): T {
  const text = JSON.stringify(document, (_, value) => (isQuantity(value) ? inUs(value) : value));
  return JSON.parse(text) as T;
}

function isQuantity(value: unknown): value is Quantity {
  return (
    typeof value === 'object' &&
    value !== null &&
    'unit' in value &&
    'value' in value &&
    `${value.unit}` in KNOWN
  );
}

const KNOWN: Record<string, unknown> = { ...IN_US, Cel: true };

function inUs({ value, unit }: Quantity): Quantity {
  if (unit === 'Cel') return q(value * 1.8 + 32, '[degF]');
  const [code, size] = IN_US[unit]!;
  return q(value / size, code);
}
