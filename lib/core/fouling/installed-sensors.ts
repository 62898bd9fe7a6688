import { BALANCE_SENSORS } from '../exchange/reconcile';
import type { ReadingColumns } from '../series/reading-columns';
import { measuredSensors } from './measured-sensors';
import { ALL_SENSORS, type SensorPlan, sensorBit, smallestAdditions } from './sensor-plan';
import type { UnitModel } from './unit-model';

type BalanceSensor = (typeof BALANCE_SENSORS)[number];

/** A sensor without a single value in a record. */
export type UnmeasuredSensor = {
  sensor: BalanceSensor;
  /**
   * What the evaluation takes instead: the heat balance, the nominal flow of the datasheet, liquid at saturation, the
   * saturation temperature at the stated pressure; null where there is no evaluation.
   */
  standIn: 'balance' | 'nominal' | 'saturated' | 'stated-pressure' | null;
  /** What a sensor there would give by itself; null for nothing. */
  gain: 'evaluation' | 'balance-check' | 'measured-flow' | 'subcooling' | null;
};

/** What a record lets be evaluated, and what it lacks. */
export type InstalledSensors = {
  isEvaluable: boolean;
  unmeasured: UnmeasuredSensor[];
  /** Where nothing can be evaluated: each way to make it so with the fewest sensors; else empty. */
  missing: BalanceSensor[][];
};

/**
 * What is installed, judged by what was ever measured in a record, and what one more sensor would give.
 *
 * @param model    the unit
 * @param readings its record, columns of length n
 * @returns the sensors without any value, what stands in for each, and the gain of each; where the rest does not suffice,
 *   the smallest sets that would
 * @range  any length; without readings nothing is measured
 * @source METHODS §3, table of what can be evaluated from what is installed
 * @check  tests/core/fouling/installed-sensors.test.ts
 */
export function installedSensors(model: UnitModel, readings: ReadingColumns): InstalledSensors {
  const { plan } = model;
  const measured = everMeasured(model, readings);
  const isEvaluable = plan.suffices[measured] === 1;
  return {
    isEvaluable,
    unmeasured: namesOf(ALL_SENSORS & ~measured).map((sensor) => ({
      sensor,
      standIn: standInOf(plan, measured, sensorBit(sensor)),
      gain: gainOf(plan, measured, sensorBit(sensor)),
    })),
    missing: isEvaluable ? [] : smallestAdditions(plan, measured).map(namesOf),
  };
}

function everMeasured(model: UnitModel, readings: ReadingColumns): number {
  let bits = 0;
  for (let i = 0; i < readings.time.length && bits !== ALL_SENSORS; i++)
    bits |= measuredSensors(model, readings, i);
  return bits;
}

function standInOf(plan: SensorPlan, measured: number, bit: number): UnmeasuredSensor['standIn'] {
  if ((plan.liquid & bit) !== 0) return 'saturated';
  if ((plan.known & bit) !== 0) return 'stated-pressure';
  if (plan.suffices[measured] === 0) return null;
  return (plan.nominal[measured]! & bit) === 0 ? 'balance' : 'nominal';
}

function gainOf(plan: SensorPlan, measured: number, bit: number): UnmeasuredSensor['gain'] {
  const more = measured | bit;
  if (plan.suffices[more] === 0) return null;
  if (plan.suffices[measured] === 0) return 'evaluation';
  if (plan.nominal[more] !== plan.nominal[measured]) return 'measured-flow';
  if ((plan.liquid & bit) !== 0) return 'subcooling';
  if ((plan.known & bit) !== 0) return null;
  return 'balance-check';
}

function namesOf(bits: number): BalanceSensor[] {
  return BALANCE_SENSORS.filter((sensor) => (bits & sensorBit(sensor)) !== 0);
}
