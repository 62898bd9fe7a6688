import type { FleetFile, Unit } from '@/lib/contract/fleet-file';
import { fluidSpec } from '@/lib/contract/fluid-spec';
import type { Quantity } from '@/lib/contract/quantity';
import { conversionToSi, type Kind } from '@/lib/contract/ucum';
import { effectiveness } from '@/lib/core/exchange/effectiveness';
import type { Arrangement, Side } from '@/lib/core/exchange/exchanger';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { makeRandom, type Random } from '@/lib/core/stats/random';
import { q } from './fleet/quantities';
import { balancedDesign } from './generate/balanced-design';
import { type GrowthPlan, PERFECT_MEASUREMENT, planUnit, type UnitPlan } from './generate/unit-plan';
import { type Codes, FAMILIES, type Family, SYSTEMS } from './held-out-families';

type Stream = Unit['hot'];

/** A deposit of this share of the clean resistance is the limit. */
const LIMIT_SHARE = 0.3;

/**
 * A random fleet with known truth: arrangements, fluids and units of measure mixed, every datasheet balanced to rounding.
 * Each unit was cleaned once; `generateReadings` makes its record.
 */
export function makeHeldOutFleet(seed: number, count = 20): { fleet: FleetFile; plans: UnitPlan[] } {
  const random = makeRandom(seed);
  const units = Array.from({ length: count }, (_, index) =>
    makeUnit(random, FAMILIES[index % FAMILIES.length]!, `HX-${index + 1}`),
  );
  const site = { name: `Held out ${seed}`, timeZone: 'Etc/UTC', currency: 'EUR' };
  return { fleet: { site, units }, plans: units.map((unit) => makePlan(random, unit)) };
}

/** The same plan with sensors that tell the plain truth and no wander. */
export function withPerfectSensors(plan: UnitPlan): UnitPlan {
  return { ...plan, measurement: PERFECT_MEASUREMENT, wander: 0 };
}

function between(random: Random, low: number, high: number): number {
  return low + (high - low) * random.uniform();
}

function oneOf<T>(random: Random, list: readonly T[]): T {
  return list[Math.floor(random.uniform() * list.length)]!;
}

function makeUnit(random: Random, family: Family, tag: string): Unit {
  const codes = oneOf(random, SYSTEMS);
  const arrangement = oneOf(random, family.arrangements);
  const [hot, cold] = [oneOf(random, family.hot), oneOf(random, family.cold)];
  const cleanU = between(random, ...family.cleanU);
  const temperatures = feasibleTemperatures(random, hot, asArrangement(arrangement));
  const { hotFlow, coldFlow, area } = balancedDesign({
    ...temperatures,
    arrangement: asArrangement(arrangement),
    hot: fluidSpec(hot, 'hot'),
    cold: fluidSpec(cold, 'cold'),
    duty: between(random, 1e5, 2e6),
    cleanU,
  });
  const metered = { codes, isVolume: random.uniform() < 0.5 };
  const limit = inUnit(LIMIT_SHARE / cleanU, codes.foulingResistance, 'foulingResistance');
  return {
    tag,
    construction: family.construction,
    arrangement,
    area: inUnit(area, codes.area, 'area'),
    hot,
    cold,
    design: {
      ...designTemperatures(temperatures, codes),
      hotFlow: meteredFlow(hotFlow, { ...metered, stream: hot, temperature: temperatures.hotIn }),
      coldFlow: meteredFlow(coldFlow, { ...metered, stream: cold, temperature: temperatures.coldIn }),
    },
    limits: [{ kind: 'fouling-resistance', value: limit }],
    sensors: sensors(codes),
  };
}

type Temperatures = { hotIn: number; hotOut: number; coldIn: number; coldOut: number };

function designTemperatures({ hotIn, hotOut, coldIn, coldOut }: Temperatures, codes: Codes) {
  const inCode = (value: number) => inUnit(value, codes.temperature, 'temperature');
  return { hotIn: inCode(hotIn), hotOut: inCode(hotOut), coldIn: inCode(coldIn), coldOut: inCode(coldOut) };
}

type Metered = { stream: Stream; temperature: number; codes: Codes; isVolume: boolean };

/** Steam and air are metered by mass, liquids by mass or volume. */
function meteredFlow(massFlow: number, { stream, temperature, codes, isVolume }: Metered): Quantity {
  const isGas = stream.fluid === 'steam' || stream.fluid === 'air';
  if (isGas || !isVolume) return inUnit(massFlow, codes.massFlow, 'massFlow');
  const { density } = makeFluid(fluidSpec(stream, 'stream'));
  return inUnit(massFlow / density!(temperature), codes.volumeFlow, 'volumeFlow');
}

function sensors(codes: Codes): Unit['sensors'] {
  const uncertainty = q(codes.temperatureDifference === 'K' ? 0.1 : 0.18, codes.temperatureDifference);
  return {
    hotIn: { uncertainty },
    hotOut: { uncertainty },
    coldIn: { uncertainty },
    coldOut: { uncertainty },
    hotFlow: { uncertainty: 0.01 },
    coldFlow: { uncertainty: 0.01 },
  };
}

/** The passes as the core knows them; a pass count left out by the file cannot occur here. */
function asArrangement(arrangement: Unit['arrangement']): Arrangement {
  return arrangement.kind === 'plate'
    ? ({ ...arrangement, flow: 'counter' } as Arrangement)
    : (arrangement as Arrangement);
}

/** Four temperatures [°C] that the arrangement reaches at a middling number of transfer units. */
function feasibleTemperatures(random: Random, hot: Stream, arrangement: Arrangement) {
  const { phaseChange } = makeFluid(fluidSpec(hot, 'hot'));
  const hotIn = phaseChange?.saturationTemperature ?? between(random, 50, 85);
  const coldIn = between(random, 8, 25);
  // Below the boiling point of what steam heats.
  const ntu = phaseChange === null ? between(random, 0.6, 1.5) : between(random, 0.3, 0.6);
  const ratio = phaseChange === null ? between(random, 0.4, 1) : 0;
  const smaller: Side = phaseChange !== null || random.uniform() < 0.5 ? 'cold' : 'hot';
  const most = effectiveness(arrangement, ntu, ratio, smaller) * (hotIn - coldIn);
  return {
    hotIn,
    hotOut: hotIn - (smaller === 'hot' ? most : most * ratio),
    coldIn,
    coldOut: coldIn + (smaller === 'cold' ? most : most * ratio),
  };
}

function inUnit(value: number, unit: string, kind: Kind): Quantity {
  const { factor, offset } = conversionToSi(unit, kind)!;
  return q((value - offset) / factor, unit);
}

function makePlan(random: Random, unit: Unit): UnitPlan {
  const growth = makeGrowth(random);
  return planUnit({
    unit,
    first: { ageDays: Math.round(between(random, 0, 60)), growth: makeGrowth(random) },
    cleanings: [
      {
        daysAgo: Math.round(between(random, 60, 150)),
        durationHours: 8,
        recovers: between(random, 0.85, 1),
        isRecorded: true,
        method: null,
        cost: null,
        growth,
      },
    ],
  });
}

function makeGrowth(random: Random): GrowthPlan {
  const limitAtDays = between(random, 120, 400);
  const growths: GrowthPlan[] = [
    { kind: 'linear', limitAtDays },
    { kind: 'delayed-linear', delayDays: 0.15 * limitAtDays, limitAtDays },
    { kind: 'falling-rate', exponent: between(random, 0.5, 0.8), limitAtDays },
    { kind: 'asymptotic', asymptoteShare: between(random, 1.3, 2), timeConstantDays: limitAtDays },
  ];
  return oneOf(random, growths);
}
