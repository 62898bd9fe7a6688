import { cleanConductance } from '@/lib/core/clean/clean-conductance';
import { type CleanReference, cleanReference } from '@/lib/core/clean/clean-reference';
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

/** True conditions of one moment; outlets, duty and (for steam) the hot flow are filled in by `solveOutlets`. */
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
  const reference = cleanReference(actual, fluids, 1 / (truth.cleanScale ?? 1));
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
  if (hot.condensing !== null) state.hotIn = hot.condensing.saturationTemperature ?? state.hotIn;
  if (hot.condensing !== null) state.hotOut = state.hotIn;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const hotRate = hot.condensing === null ? rate(hot, state.hotFlow, state.hotIn, state.hotOut) : Infinity;
    const coldRate = rate(cold, state.coldFlow, state.coldIn, state.coldOut);
    const duty = dutyAt(model, state, { hotRate, coldRate });
    const hotOut = state.hotIn - duty / hotRate;
    const coldOut = state.coldIn + duty / coldRate;
    const change = Math.max(Math.abs(hotOut - state.hotOut), Math.abs(coldOut - state.coldOut));
    state.hotOut = hotOut;
    state.coldOut = coldOut;
    state.duty = duty;
    if (Number.isNaN(change)) return false;
    if (change < OUTLET_TOLERANCE) return finish(hot, state);
  }
  return false;
}

function dutyAt(model: ForwardModel, state: UnitState, rates: { hotRate: number; coldRate: number }): number {
  const hotMean = (state.hotIn + state.hotOut) / 2;
  const coldMean = (state.coldIn + state.coldOut) / 2;
  state.cleanU = cleanConductance(model.reference, state.hotFlow, state.coldFlow, hotMean, coldMean);
  const overallU = 1 / (1 / state.cleanU + state.foulingResistance);
  return outletDuty({
    arrangement: model.exchanger.arrangement,
    hotCapacityRate: rates.hotRate,
    coldCapacityRate: rates.coldRate,
    hotIn: state.hotIn,
    coldIn: state.coldIn,
    conductance: overallU * model.exchanger.area,
  });
}

/** Steam condenses as fast as the duty asks: its flow follows. */
function finish({ condensing }: Fluid, state: UnitState): boolean {
  if (condensing !== null) {
    const latent = condensing.vapourEnthalpy(state.hotIn) - condensing.liquidEnthalpy(state.hotIn);
    state.hotFlow = state.duty / latent;
  }
  return state.duty > 0;
}

/** Mean capacity rate between two temperatures [W/K]. */
function rate(fluid: Fluid, massFlow: number, from: number, to: number): number {
  if (Math.abs(from - to) < 1e-6) return massFlow * fluid.specificHeat(from);
  return (massFlow * (fluid.enthalpy(from) - fluid.enthalpy(to))) / (from - to);
}
