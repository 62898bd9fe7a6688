import type { Unit } from '@/lib/contract/fleet-file';
import { SENSORS, type Sensor, type SensorUncertainty } from '@/lib/core/exchange/exchanger';
import {
  COLD_FLOW_IS_VOLUME,
  HOT_FLOW_IS_VOLUME,
  makeReadingColumns,
  type ReadingColumns,
} from '@/lib/core/series/reading-columns';
import type { Random } from '@/lib/core/stats/random';
import { type DatedModel, modelAt } from './dated-models';
import { PRESSURE_DROP_RISE } from './limit-fouling';
import { type LoggedUnit, loggedUnits, roundToStep } from './log-units';
import type { TrueStates } from './true-states';
import type { MeasurementPlan } from './unit-plan';

/** A calibration outside this many standard deviations would have been found. */
const LARGEST_BIAS = 1.5;
/** A meter at rest shows up to this share of design flow. */
const REST_FLOW_SHARE = 0.003;

export type MeasureInput = {
  unit: Unit;
  /** Sensors stay when the equipment changes: theirs are those of the last. */
  models: DatedModel[];
  plan: MeasurementPlan;
  states: TrueStates;
  time: Float64Array;
  /** First limit that is not of a pressure drop [m²·K/W], for the rise of the pressure drop. */
  thermalLimit: number;
};

/** What the sensors showed and the historian kept of the true states. */
export function measure(input: MeasureInput, random: Random): ReadingColumns {
  const { plan, time, models } = input;
  const { exchanger } = models.at(-1)!.model;
  const readings = makeReadingColumns(time.length);
  readings.time.set(time);
  const logged = loggedUnits(input.unit);
  const volume =
    (logged.hotFlow.isVolume ? HOT_FLOW_IS_VOLUME : 0) | (logged.coldFlow.isVolume ? COLD_FLOW_IS_VOLUME : 0);
  readings.flowBasis.fill(volume);
  for (const sensor of SENSORS) {
    const truth = trueColumn(input, sensor, logged[sensor]);
    // Every sensor takes its numbers from the stream, measured or not: leaving one out does not change the others.
    const column = withError(truth, { sensor: exchanger.sensors[sensor], plan, random });
    if (truth === null || plan.unmeasured.includes(sensor)) continue;
    readings[sensor].set(plan.isRounded ? rounded(column, logged[sensor]) : column);
  }
  return readings;
}

function trueColumn(input: MeasureInput, sensor: Sensor, logged: LoggedUnit): Float64Array | null {
  switch (sensor) {
    case 'hotFlow':
    case 'coldFlow':
      return meteredFlow(input, sensor, logged.isVolume);
    case 'hotPressureDrop':
      return pressureDrop(input, 'hot', input.plan.hotPressureDrop);
    case 'coldPressureDrop':
      return pressureDrop(input, 'cold', input.plan.coldPressureDrop);
    default:
      return input.states[sensor];
  }
}

function meteredFlow(input: MeasureInput, sensor: 'hotFlow' | 'coldFlow', isVolume: boolean): Float64Array {
  const { models, states } = input;
  const { model } = models.at(-1)!;
  const massFlow = states[sensor];
  const rest = REST_FLOW_SHARE * model.exchanger.design[sensor];
  const side = sensor === 'hotFlow' ? 'hot' : 'cold';
  const { density } = model.fluids[side];
  const at = model.exchanger[`${side}MeterAt`];
  const temperature = states[`${side}${at === 'inlet' ? 'In' : 'Out'}`];
  return massFlow.map((flow, i) => {
    const shown = states.isRunning[i] === 1 ? flow : rest;
    return isVolume ? shown / density!(temperature[i]!) : shown;
  });
}

function pressureDrop(input: MeasureInput, side: 'hot' | 'cold', clean: number | null): Float64Array | null {
  if (clean === null) return null;
  const { states, models, plan, time, thermalLimit } = input;
  return states[`${side}Flow`].map((flow, i) => {
    const design = modelAt(models, time[i]!).exchanger.design[`${side}Flow`];
    const dirt = Math.max(0, states.foulingResistance[i]! / thermalLimit);
    return clean * (flow / design) ** plan.pressureDropExponent * (1 + PRESSURE_DROP_RISE * dirt);
  });
}

function withError(
  truth: Float64Array | null,
  { sensor, plan, random }: { sensor: SensorUncertainty; plan: MeasurementPlan; random: Random },
): Float64Array {
  const offset = Math.max(-LARGEST_BIAS, Math.min(LARGEST_BIAS, random.normal()));
  const systematic = plan.bias * Math.sqrt(sensor.systematicShare) * offset;
  const scatter = plan.noise * Math.sqrt(1 - sensor.systematicShare);
  if (truth === null) return new Float64Array(0);
  return truth.map((value) => {
    const uncertainty = sensor.absolute + sensor.relative * Math.abs(value);
    return value + uncertainty * (systematic + scatter * random.normal());
  });
}

function rounded(column: Float64Array, { conversion, step }: LoggedUnit): Float64Array {
  const { factor, offset } = conversion;
  return column.map((value) => roundToStep((value - offset) / factor, step) * factor + offset);
}
