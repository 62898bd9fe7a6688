import { toExchanger } from '@/lib/contract/exchanger-from-unit';
import type { Unit } from '@/lib/contract/fleet-file';
import { inSi } from '@/lib/contract/quantity';
import { conversionToSi } from '@/lib/contract/ucum';
import {
  FLOW_SENSORS,
  type FlowSensor,
  type Side,
  TEMPERATURE_SENSORS,
  type TemperatureSensor,
} from '@/lib/core/exchange/exchanger';
import { makeFluid } from '@/lib/core/fluids/make-fluid';

/** A design flow as mass [kg/s] and as volume [m³/s]; null where it cannot be told. */
export type FlowTarget = { mass: number | null; volume: number | null };

/** What the sensors of a unit should read at its design point, in SI. */
export type UnitTargets = {
  tag: string;
  temperatures: Record<TemperatureSensor, number>;
  flows: Record<FlowSensor, FlowTarget>;
  /** Units of measure of the datasheet. */
  writtenUnits: Record<TemperatureSensor | FlowSensor, string>;
  /** Words of the fluids that stand on one side only, with that side. */
  fluidWords: Map<string, Side>;
};

export function unitTargets(unit: Unit): UnitTargets {
  const { design } = unit;
  const sensors = [...TEMPERATURE_SENSORS, ...FLOW_SENSORS];
  return {
    tag: unit.tag,
    temperatures: record(TEMPERATURE_SENSORS, (sensor) => inSi(design[sensor], 'temperature')),
    flows: flowTargets(unit),
    writtenUnits: record(sensors, (sensor) => design[sensor].unit),
    fluidWords: fluidWords(unit),
  };
}

function flowTargets(unit: Unit): UnitTargets['flows'] {
  const masses = massFlows(unit);
  return record(FLOW_SENSORS, (sensor) => {
    const given = unit.design[sensor];
    const mass = masses?.[sensor].mass ?? null;
    if (conversionToSi(given.unit, 'volumeFlow') !== null) return { mass, volume: inSi(given, 'volumeFlow') };
    const density = masses?.[sensor].density ?? null;
    const stated = inSi(given, 'massFlow');
    return { mass: stated, volume: density === null ? null : stated / density };
  });
}

/** Mass flows and densities [kg/m³] at the design point; null for a datasheet that cannot be evaluated. */
function massFlows(unit: Unit): Record<FlowSensor, { mass: number; density: number | null }> | null {
  try {
    const { design, hot, cold } = toExchanger(unit);
    const densityOf = (spec: typeof hot, temperature: number) => {
      const density = makeFluid(spec).density?.(temperature);
      return density === undefined || !(density > 0) ? null : density;
    };
    return {
      hotFlow: { mass: design.hotFlow, density: densityOf(hot, design.hotIn) },
      coldFlow: { mass: design.coldFlow, density: densityOf(cold, design.coldIn) },
    };
  } catch {
    // A guess does without: the datasheet's own form says what is wrong with it.
    return null;
  }
}

const WORDS_OF_FLUID: Record<Unit['hot']['fluid'], string[]> = {
  water: ['WATER', 'WTR'],
  steam: ['STEAM', 'STM'],
  seawater: ['SEAWATER', 'SEA', 'SW'],
  'ethylene-glycol': ['GLYCOL', 'GLY', 'MEG'],
  'propylene-glycol': ['GLYCOL', 'GLY', 'MPG'],
  oil: ['OIL'],
  air: ['AIR'],
  custom: [],
};

function fluidWords({ hot, cold }: Unit): UnitTargets['fluidWords'] {
  const [hotWords, coldWords] = [WORDS_OF_FLUID[hot.fluid], WORDS_OF_FLUID[cold.fluid]];
  const words = new Map<string, Side>();
  for (const word of hotWords) if (!coldWords.includes(word)) words.set(word, 'hot');
  for (const word of coldWords) if (!hotWords.includes(word)) words.set(word, 'cold');
  return words;
}

function record<Key extends string, Value>(
  keys: readonly Key[],
  valueAt: (key: Key) => Value,
): Record<Key, Value> {
  return Object.fromEntries(keys.map((key) => [key, valueAt(key)])) as Record<Key, Value>;
}
