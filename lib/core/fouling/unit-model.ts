import type { CheckSettings } from '../checks/check-settings';
import { type CleanReference, cleanReference, type Fluids } from '../clean/clean-reference';
import type { Exchanger, FlowSensor, SensorUncertainty, TemperatureSensor } from '../exchange/exchanger';
import { BALANCE_SENSORS, type BalanceStreams, type EnthalpyCurve } from '../exchange/reconcile';
import type { Fluid } from '../fluids/fluid';
import { makeFluid } from '../fluids/make-fluid';

/** A unit with everything made once that the evaluation of its readings needs in a loop. */
export type UnitModel = Fluids & {
  exchanger: Exchanger;
  settings: CheckSettings;
  clean: CleanReference;
  isCondensing: boolean;
  /** Both streams run the same way through the whole unit: its terminal differences are at the two inlets and the two outlets. */
  isCoCurrent: boolean;
  streams: BalanceStreams;
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
 * @param cleanScale learned factor on its clean resistance [-]
 * @returns fluids, clean reference, enthalpy curves [J/kg] and sensors; RangeError for an impossible datasheet
 * @range  as `cleanReference`
 * @source none: preparation only
 * @check  tests/core/fouling/evaluate-readings.test.ts
 */
export function unitModel(exchanger: Exchanger, settings: CheckSettings, cleanScale: number): UnitModel {
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  const { arrangement } = exchanger;
  const hotCurve = liquidCurve(fluids.hot);
  const coldCurve = liquidCurve(fluids.cold);
  return {
    ...fluids,
    exchanger,
    settings,
    clean: cleanReference(exchanger, fluids, cleanScale),
    isCondensing: fluids.hot.condensing !== null,
    isCoCurrent:
      arrangement.kind === 'co-current' ||
      (arrangement.kind === 'plate' &&
        arrangement.flow === 'parallel' &&
        arrangement.hotPasses === arrangement.coldPasses),
    streams: {
      hotIn: vapourCurve(fluids.hot) ?? hotCurve,
      hotOut: hotCurve,
      coldIn: coldCurve,
      coldOut: coldCurve,
    },
    sensors: BALANCE_SENSORS.map((sensor) => exchanger.sensors[sensor]),
  };
}

function liquidCurve(fluid: Fluid): EnthalpyCurve {
  return { enthalpy: fluid.enthalpy, slope: fluid.specificHeat };
}

function vapourCurve({ condensing }: Fluid): EnthalpyCurve | null {
  if (condensing === null) return null;
  const enthalpy = condensing.vapourEnthalpy;
  return { enthalpy, slope: (t) => (enthalpy(t + SLOPE_STEP) - enthalpy(t - SLOPE_STEP)) / (2 * SLOPE_STEP) };
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
