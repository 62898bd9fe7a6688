import type { Exchanger, Side } from '../exchange/exchanger';
import { BALANCE_SENSORS } from '../exchange/reconcile';
import type { Fluid } from '../fluids/fluid';

/** Number of masks of the six sensors, and the mask of all six. */
const MASKS = 1 << BALANCE_SENSORS.length;
/** Bits of all six sensors of the balance. */
export const ALL_SENSORS = MASKS - 1;
/** Set among the bits of missing sensors where all of them are wanted together; clear where any one of them will do. */
export const MISSING_TOGETHER = MASKS;

/**
 * What can be made of each set of measured sensors: the table of METHODS §3, worked out once for a unit. Sets are masks of
 * bits in the order of `BALANCE_SENSORS`.
 */
export type SensorPlan = {
  /**
   * Bits of what is known without a sensor: the saturation temperature where a pressure is stated, and the other end of the
   * stream that changes phase, which counts as saturated liquid where nothing is read there.
   */
  known: number;
  /** Bit of that other end, condensate or feed; 0 for single-phase streams. */
  liquid: number;
  /** 1 for each set of measured sensors that suffices, length 64 [-]. */
  suffices: Uint8Array;
  /** Bits of the flows that stand in at their nominal value with that set, length 64 [-]. */
  nominal: Uint8Array;
  /**
   * What to add to a set that does not suffice, length 64 [-]: bits of the sensors any one of which would do, or, with
   * `MISSING_TOGETHER`, of the fewest that would do together, thermometers before flow meters. 0 for a set that suffices.
   */
  missing: Uint8Array;
};

/**
 * Bit of a sensor in such a mask.
 *
 * @param sensor one of the six of the balance
 * @returns 2 to the power of its place in `BALANCE_SENSORS` [-]
 * @range  any
 * @source none: bookkeeping only
 * @check  tests/core/fouling/sensor-plan.test.ts
 */
export function sensorBit(sensor: (typeof BALANCE_SENSORS)[number]): number {
  return 1 << BALANCE_SENSORS.indexOf(sensor);
}

/** Sensor that reads the saturation temperature of the side that changes phase: vapour enters hot, and leaves cold. */
export const SATURATION_SENSOR = { hot: 'hotIn', cold: 'coldOut' } as const satisfies Record<Side, string>;
/** Sensor at the liquid end of that side: condensate or feed. */
const LIQUID_SENSOR = { hot: 'hotOut', cold: 'coldIn' } as const satisfies Record<Side, string>;

/**
 * Works out which sets of measured sensors suffice: the balance gives one value that is not measured, save the saturation
 * temperature. Where more than one is lacking, flows stand in at their nominal value, and only then: an inferred flow is
 * better than a typed-in one.
 *
 * @param exchanger   the unit, with its nominal flows [kg/s]
 * @param phaseChange the fluid of the side that changes phase and which side it is; null for single-phase streams
 * @returns the plan; bits in the order of `BALANCE_SENSORS` [-]
 * @range  any
 * @source METHODS §3, table of what can be evaluated from what is installed
 * @check  tests/core/fouling/sensor-plan.test.ts
 */
export function sensorPlan(
  { nominalFlows }: Pick<Exchanger, 'nominalFlows'>,
  phaseChange: { side: Side; fluid: Fluid } | null,
): SensorPlan {
  const saturation = phaseChange === null ? 0 : sensorBit(SATURATION_SENSOR[phaseChange.side]);
  const isPressureStated = (phaseChange?.fluid.phaseChange?.saturationTemperature ?? null) !== null;
  const liquid = phaseChange === null ? 0 : sensorBit(LIQUID_SENSOR[phaseChange.side]);
  const known = liquid | (isPressureStated ? saturation : 0);
  const stated =
    (nominalFlows.hot === null ? 0 : sensorBit('hotFlow')) |
    (nominalFlows.cold === null ? 0 : sensorBit('coldFlow'));
  const key = `${known} ${saturation} ${stated}`;
  const made = kept.get(key) ?? makePlan({ known, liquid, saturation, stated });
  kept.set(key, made);
  return made;
}

/** Plans already made: a fleet has many units and few sets of known and stated values. */
const kept = new Map<string, SensorPlan>();

function makePlan(of: { known: number; liquid: number; saturation: number; stated: number }): SensorPlan {
  const { known, liquid, saturation, stated } = of;
  const masks = () => new Uint8Array(MASKS);
  const plan = { known, liquid, suffices: masks(), nominal: masks(), missing: masks() };
  for (let measured = 0; measured < MASKS; measured++) {
    const lacking = ALL_SENSORS & ~(measured | known);
    const nominal = isAtMostOne(lacking) ? 0 : lacking & stated;
    const unknown = lacking & ~nominal;
    if (!isAtMostOne(unknown) || (unknown & saturation) !== 0) continue;
    plan.suffices[measured] = 1;
    plan.nominal[measured] = nominal;
  }
  for (let measured = 0; measured < MASKS; measured++) plan.missing[measured] = missingBits(plan, measured);
  return plan;
}

/**
 * The fewest sensors that would make a set suffice.
 *
 * @param plan     of the unit
 * @param measured bits of the sensors measured [-]
 * @returns each way to do it as bits, ascending: thermometers before flow meters; one empty way where the set suffices
 * @range  0 ≤ measured < 64
 * @source METHODS §3, table of what can be evaluated from what is installed
 * @check  tests/core/fouling/sensor-plan.test.ts
 */
export function smallestAdditions({ suffices }: Pick<SensorPlan, 'suffices'>, measured: number): number[] {
  const ways = Array.from({ length: MASKS }, (_, added) => added).filter(
    (added) => (added & measured) === 0 && suffices[measured | added] === 1,
  );
  const fewest = Math.min(...ways.map(countOf));
  return ways.filter((added) => countOf(added) === fewest);
}

function missingBits(plan: Pick<SensorPlan, 'suffices'>, measured: number): number {
  const ways = smallestAdditions(plan, measured);
  const first = ways[0]!;
  if (countOf(first) > 1) return first | MISSING_TOGETHER;
  return ways.reduce((bits, way) => bits | way, 0);
}

function countOf(bits: number): number {
  let count = 0;
  for (let rest = bits; rest !== 0; rest &= rest - 1) count++;
  return count;
}

function isAtMostOne(bits: number): boolean {
  return (bits & (bits - 1)) === 0;
}
