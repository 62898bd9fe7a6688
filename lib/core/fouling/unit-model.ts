import type { CheckSettings } from '../checks/check-settings';
import {
  AS_ON_DATASHEET,
  type CleanFactors,
  type CleanReference,
  cleanReference,
  type Fluids,
} from '../clean/clean-reference';
import { isCoCurrent } from '../exchange/direction';
import type {
  Exchanger,
  FlowSensor,
  SensorUncertainty,
  Side,
  TemperatureSensor,
} from '../exchange/exchanger';
import { BALANCE_SENSORS, type BalanceStreams, type EnthalpyCurve } from '../exchange/reconcile';
import type { Fluid, Property } from '../fluids/fluid';
import { makeFluid } from '../fluids/make-fluid';
import { phaseChangeSide } from './enthalpy-change';
import { type SensorPlan, sensorPlan } from './sensor-plan';

/** A unit with everything made once that the evaluation of its readings needs in a loop. */
export type UnitModel = Fluids & {
  exchanger: Exchanger;
  settings: CheckSettings;
  clean: CleanReference;
  /** The side whose stream changes phase: condenses on the hot side, evaporates on the cold one; null for neither. */
  phaseChange: Side | null;
  /**
   * Places of the temperatures between which the streams exchange, beside hot inlet and cold outlet: a stream that changes
   * phase is at saturation, which its vapour end tells, from end to end.
   */
  hotEnd: number;
  coldStart: number;
  /** Whether a volume flow can be turned into a mass flow: a density is stated, and the meter does not sit in vapour. */
  hasMeterDensity: Record<Side, boolean>;
  plan: SensorPlan;
  /** Both streams run the same way through the whole unit: its terminal differences are at the two inlets and the two outlets. */
  isCoCurrent: boolean;
  streams: BalanceStreams;
  /** The same where the liquid end of a stream that changes phase is taken as saturated; null without such a stream. */
  saturatedStreams: BalanceStreams | null;
  /** Uncertainties in the order of `BALANCE_SENSORS`. */
  sensors: SensorUncertainty[];
};

/** Step for the slope of a vapour's enthalpy over its saturation temperature [K]. */
const SLOPE_STEP = 0.01;

/**
 * Prepares a unit for evaluation.
 *
 * @param exchanger  the unit
 * @param settings   thresholds of its screening
 * @param cleanFactors learned factors on its clean resistances [-]
 * @returns fluids, clean reference, enthalpy curves [J/kg] and sensors; RangeError for an impossible datasheet
 * @range  as `cleanReference`
 * @source none: preparation only
 * @check  tests/core/fouling/evaluate-readings.test.ts
 */
export function unitModel(
  exchanger: Exchanger,
  settings: CheckSettings,
  cleanFactors: CleanFactors = AS_ON_DATASHEET,
): UnitModel {
  const known = KEPT.get(exchanger);
  if (known?.settings === settings && areSame(known.clean.factors, cleanFactors)) return known;
  const model = makeModel(exchanger, settings, cleanFactors);
  KEPT.set(exchanger, model);
  return model;
}

/** The last model of each exchanger: none of what it is made from is ever changed, and the next day asks for it again. */
const KEPT = new WeakMap<Exchanger, UnitModel>();

function areSame(one: CleanFactors, other: CleanFactors): boolean {
  return one.hot === other.hot && one.wall === other.wall && one.cold === other.cold;
}

function makeModel(exchanger: Exchanger, settings: CheckSettings, cleanFactors: CleanFactors): UnitModel {
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  const phaseChange = phaseChangeSide(fluids);
  const hotCurve = liquidCurve(fluids.hot);
  const coldCurve = liquidCurve(fluids.cold);
  const streams = {
    hotIn: vapourCurve(fluids.hot) ?? hotCurve,
    hotOut: hotCurve,
    coldIn: coldCurve,
    coldOut: vapourCurve(fluids.cold) ?? coldCurve,
  };
  return {
    ...fluids,
    exchanger,
    settings,
    clean: cleanReference(exchanger, fluids, cleanFactors),
    phaseChange,
    hotEnd: phaseChange === 'hot' ? PLACE.hotIn : PLACE.hotOut,
    coldStart: phaseChange === 'cold' ? PLACE.coldOut : PLACE.coldIn,
    hasMeterDensity: {
      hot: fluids.hot.density !== null && !(phaseChange === 'hot' && exchanger.hotMeterAt === 'inlet'),
      cold: fluids.cold.density !== null && !(phaseChange === 'cold' && exchanger.coldMeterAt === 'outlet'),
    },
    plan: sensorPlan(
      exchanger,
      phaseChange === null ? null : { side: phaseChange, fluid: fluids[phaseChange] },
    ),
    isCoCurrent: isCoCurrent(exchanger.arrangement),
    streams,
    saturatedStreams: saturatedStreams(fluids, streams),
    sensors: BALANCE_SENSORS.map((sensor) => exchanger.sensors[sensor]),
  };
}

function liquidCurve(fluid: Fluid): EnthalpyCurve {
  const { enthalpy, specificHeat: slope, heatInto: into } = fluid;
  return into === undefined ? { enthalpy, slope } : { enthalpy, slope, into };
}

/** Liquid that is saturated moves with the saturation temperature: all its end gives or takes hangs on the vapour's. */
const NO_ENTHALPY: EnthalpyCurve = { enthalpy: () => 0, slope: () => 0 };

function saturatedStreams({ hot, cold }: Fluids, streams: BalanceStreams): BalanceStreams | null {
  if (hot.phaseChange !== null) return { ...streams, hotIn: latentCurve(hot), hotOut: NO_ENTHALPY };
  if (cold.phaseChange !== null) return { ...streams, coldOut: latentCurve(cold), coldIn: NO_ENTHALPY };
  return null;
}

function latentCurve(fluid: Fluid): EnthalpyCurve {
  const { vapourEnthalpy, liquidEnthalpy } = fluid.phaseChange!;
  return curveOf(fluid, (t) => vapourEnthalpy(t) - liquidEnthalpy(t));
}

function vapourCurve(fluid: Fluid): EnthalpyCurve | null {
  return fluid.phaseChange === null ? null : curveOf(fluid, fluid.phaseChange.vapourEnthalpy);
}

/** At an end of the range, where a table of liquid properties often ends at boiling, the step goes inwards only. */
function curveOf({ minimum, maximum }: Fluid, enthalpy: Property): EnthalpyCurve {
  const slope = (t: number) => {
    const [low, high] = [Math.max(t - SLOPE_STEP, minimum), Math.min(t + SLOPE_STEP, maximum)];
    return (enthalpy(high) - enthalpy(low)) / (high - low);
  };
  return { enthalpy, slope };
}

/**
 * Standard uncertainty of one sensor's value.
 *
 * @param sensor its absolute [unit of the value] and relative [-] parts
 * @param value  [°C, kg/s or Pa]
 * @returns absolute + relative·|value| [unit of the value]
 * @range  any
 * @source JCGM 100:2008 (GUM), 4.3: Type B evaluation from a maker's statement
 * @check  tests/core/fouling/uncertainty.test.ts
 */
export function standardUncertainty(sensor: SensorUncertainty, value: number): number {
  return sensor.absolute + sensor.relative * Math.abs(value);
}

/** Place of each sensor in `BALANCE_SENSORS`, in `UnitModel.sensors` and in the bits of `EvaluationColumns.inferred`. */
export const PLACE = {
  hotIn: 0,
  hotOut: 1,
  coldIn: 2,
  coldOut: 3,
  hotFlow: 4,
  coldFlow: 5,
} as const satisfies Record<TemperatureSensor | FlowSensor, number>;
