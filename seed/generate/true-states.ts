import type { Random } from '@/lib/core/stats/random';
import { type DatedModel, modelAt } from './dated-models';
import { designState } from './forward-model';
import { solveWithValve } from './held-outlet';
import type { Operation } from './operation';
import { MS_PER_DAY, type TrueCycle } from './true-cycles';
import { trueFouling } from './true-growth';
import { makeWander } from './wander';

const MS_PER_HOUR = 3_600_000;
/** Deposits come and go about their growth over some days. */
const WANDER_CORRELATION_MS = 4 * MS_PER_DAY;
/** A unit that stands still takes the temperature of its hall [°C] within a shift. */
const HALL_TEMPERATURE = 22;
const COOLING_MS = 8 * MS_PER_HOUR;

/** The truth per reading: temperatures [°C], mass flows [kg/s], fouling [m²·K/W]. */
export type TrueStates = Operation & {
  hotOut: Float64Array;
  coldOut: Float64Array;
  /** Fouling as it was, and without its slow wander. */
  foulingResistance: Float64Array;
  smoothFoulingResistance: Float64Array;
  duty: Float64Array;
  cleanU: Float64Array;
};

export type StatesInput = {
  models: DatedModel[];
  operation: Operation;
  cycles: TrueCycle[];
  /** Instants [ms]. */
  time: Float64Array;
  /** Standard deviation of the wander [m²·K/W]. */
  wander: number;
};

/** Runs the forward model over every reading. */
export function trueStates(input: StatesInput, random: Random): TrueStates {
  const { operation, time } = input;
  const states = emptyStates(operation, time.length);
  foulingAt(input, states, random);
  const state = designState(input.models[0]!.model);
  for (let i = 0; i < time.length; i++) {
    state.hotIn = operation.hotIn[i]!;
    state.coldIn = operation.coldIn[i]!;
    state.hotFlow = operation.hotFlow[i]!;
    state.coldFlow = operation.coldFlow[i]!;
    state.foulingResistance = states.foulingResistance[i]!;
    if (operation.isRunning[i] === 1 && !solveWithValve(modelAt(input.models, time[i]!), state)) {
      throw new RangeError(`no outlets at reading ${i}: the plan's inlets do not suit the unit`);
    }
    if (operation.isRunning[i] === 1) keep(states, i, state);
    else standStill(states, i, i > 0 ? time[i]! - time[i - 1]! : MS_PER_HOUR);
  }
  return states;
}

function emptyStates(operation: Operation, length: number): TrueStates {
  const column = () => new Float64Array(length).fill(Number.NaN);
  return {
    ...operation,
    hotOut: column(),
    coldOut: column(),
    foulingResistance: column(),
    smoothFoulingResistance: column(),
    duty: column(),
    cleanU: column(),
  };
}

function foulingAt({ cycles, time, wander }: StatesInput, states: TrueStates, random: Random): void {
  const stepMs = time.length > 1 ? time[1]! - time[0]! : MS_PER_HOUR;
  const next = makeWander(random, stepMs, WANDER_CORRELATION_MS);
  let cycle = 0;
  for (let i = 0; i < time.length; i++) {
    while (cycle + 1 < cycles.length && time[i]! >= cycles[cycle + 1]!.start) cycle++;
    const { growth, start } = cycles[cycle]!;
    const smooth = trueFouling(growth, (time[i]! - start) / MS_PER_DAY);
    states.smoothFoulingResistance[i] = smooth;
    states.foulingResistance[i] = smooth + wander * next();
  }
}

function keep(states: TrueStates, i: number, state: ReturnType<typeof designState>): void {
  states.hotIn[i] = state.hotIn;
  states.hotFlow[i] = state.hotFlow;
  states.coldFlow[i] = state.coldFlow;
  states.hotOut[i] = state.hotOut;
  states.coldOut[i] = state.coldOut;
  states.duty[i] = state.duty;
  states.cleanU[i] = state.cleanU;
}

const TEMPERATURE_COLUMNS = ['hotIn', 'hotOut', 'coldIn', 'coldOut'] as const;

/** No flow, no duty; every thermometer drifts towards the hall. */
function standStill(states: TrueStates, i: number, stepMs: number): void {
  const kept = Math.exp(-stepMs / COOLING_MS);
  for (const column of TEMPERATURE_COLUMNS) {
    const before = i > 0 ? states[column][i - 1]! : HALL_TEMPERATURE;
    states[column][i] = HALL_TEMPERATURE + kept * (before - HALL_TEMPERATURE);
  }
  states.hotFlow[i] = 0;
  states.coldFlow[i] = 0;
}
