import { cleanConductance } from '@/lib/core/clean/clean-conductance';
import { type CleanReference, cleanReference, scaledFactors } from '@/lib/core/clean/clean-reference';
import type { Exchanger, Films } from '@/lib/core/exchange/exchanger';
import { outletDuty } from '@/lib/core/exchange/rating';
import type { Fluid } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';

/** Outlets are found to this [K]: far below what any sensor shows, near what a double can tell. */
const OUTLET_TOLERANCE = 1e-10;
/** Property changes are mild: a dozen rounds suffice, more means inlets at which nothing settles. */
const MOST_ROUNDS = 60;

/** A unit as it truly is: its clean figures need not be those of the datasheet. */
export type ForwardModel = {
  exchanger: Exchanger;
  fluids: { hot: Fluid; cold: Fluid };
  reference: CleanReference;
};

/** True conditions of one moment; outlets, duty and the flow of a stream that changes phase are filled in by `solveOutlets`. */
export type UnitState = {
  hotIn: number;
  hotOut: number;
  coldIn: number;
  coldOut: number;
  hotFlow: number;
  coldFlow: number;
  foulingResistance: number;
  duty: number;
  cleanU: number;
};

/**
 * The forward model of a unit.
 *
 * @param truth `cleanScale` multiplies the datasheet's clean conductance; `films` replace figures of the datasheet
 */
export function makeForwardModel(
  exchanger: Exchanger,
  truth: { cleanScale?: number; films?: Partial<Films> } = {},
): ForwardModel {
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  const actual = { ...exchanger, films: { ...exchanger.films, ...truth.films } };
  const reference = cleanReference(actual, fluids, scaledFactors(1 / (truth.cleanScale ?? 1)));
  return { exchanger, fluids, reference };
}

/** Conditions of the datasheet, as a start for `solveOutlets`. */
export function designState({ exchanger }: ForwardModel): UnitState {
  const { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow } = exchanger.design;
  return {
    hotIn,
    hotOut,
    coldIn,
    coldOut,
    hotFlow,
    coldFlow,
    foulingResistance: 0,
    duty: 0,
    cleanU: Number.NaN,
  };
}

/**
 * Outlet temperatures and duty for the inlets, flows and fouling in `state`, written into it. The outlets it comes with
 * are the first guess. Capacity rates and clean conductance depend on the outlets: repeated until nothing moves.
 *
 * @returns false where no outlets were found (inlets reversed, a fluid outside its range)
 */
export function solveOutlets(model: ForwardModel, state: UnitState): boolean {
  const { hot, cold } = model.fluids;
  saturate(model.fluids, state);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const hotRate = rate(hot, state.hotFlow, state.hotIn, state.hotOut);
    const coldRate = rate(cold, state.coldFlow, state.coldIn, state.coldOut);
    // Feed below boiling takes heat, but boils at one temperature from end to end.
    const coldStart = cold.phaseChange === null ? state.coldIn : state.coldOut;
    const duty = dutyAt(model, state, { hotRate, coldRate, coldStart });
    const hotOut = state.hotIn - duty / hotRate;
    const coldOut = coldStart + duty / coldRate;
    const change = Math.max(Math.abs(hotOut - state.hotOut), Math.abs(coldOut - state.coldOut));
    state.hotOut = hotOut;
    state.coldOut = coldOut;
    state.duty = duty;
    if (Number.isNaN(change)) return false;
    if (change < OUTLET_TOLERANCE) return finish(model.fluids, state);
  }
  return false;
}

/** Puts a stream that changes phase at its saturation temperature, condensate with it. */
function saturate({ hot, cold }: ForwardModel['fluids'], state: UnitState): void {
  if (hot.phaseChange !== null) {
    state.hotIn = hot.phaseChange.saturationTemperature ?? state.hotIn;
    state.hotOut = state.hotIn;
  }
  if (cold.phaseChange !== null) state.coldOut = cold.phaseChange.saturationTemperature ?? state.coldOut;
}

type Streams = { hotRate: number; coldRate: number; coldStart: number };

function dutyAt(model: ForwardModel, state: UnitState, streams: Streams): number {
  const hotMean = (state.hotIn + state.hotOut) / 2;
  const coldMean = (state.coldIn + state.coldOut) / 2;
  state.cleanU = cleanConductance(model.reference, state.hotFlow, state.coldFlow, hotMean, coldMean);
  const overallU = 1 / (1 / state.cleanU + state.foulingResistance);
  return outletDuty({
    arrangement: model.exchanger.arrangement,
    hotCapacityRate: streams.hotRate,
    coldCapacityRate: streams.coldRate,
    hotIn: state.hotIn,
    coldIn: streams.coldStart,
    conductance: overallU * model.exchanger.area,
  });
}

/** Steam condenses, and feed boils, as fast as the duty asks: the flow follows. */
function finish({ hot, cold }: ForwardModel['fluids'], state: UnitState): boolean {
  if (hot.phaseChange !== null) {
    const { vapourEnthalpy, liquidEnthalpy } = hot.phaseChange;
    state.hotFlow = state.duty / (vapourEnthalpy(state.hotIn) - liquidEnthalpy(state.hotIn));
  }
  if (cold.phaseChange !== null) {
    const taken = cold.phaseChange.vapourEnthalpy(state.coldOut) - cold.enthalpy(state.coldIn);
    state.coldFlow = state.duty / taken;
  }
  return state.duty > 0;
}

/** Mean capacity rate between two temperatures [W/K]; without end for a stream that changes phase. */
function rate(fluid: Fluid, massFlow: number, from: number, to: number): number {
  if (fluid.phaseChange !== null) return Number.POSITIVE_INFINITY;
  if (Math.abs(from - to) < 1e-6) return massFlow * fluid.specificHeat(from);
  return (massFlow * (fluid.enthalpy(from) - fluid.enthalpy(to))) / (from - to);
}
