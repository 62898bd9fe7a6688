import type { Unit } from '@/lib/contract/fleet-file';
import type { Films, Sensor } from '@/lib/core/exchange/exchanger';

/**
 * Growth of the true fouling. `limitAtDays` is the age at which it reaches the unit's limit when it starts from clean,
 * so that one plan suits any unit; what a cleaning leaves behind comes on top and brings the limit nearer.
 */
export type GrowthPlan =
  | { kind: 'none' }
  | { kind: 'linear'; limitAtDays: number }
  | { kind: 'delayed-linear'; delayDays: number; limitAtDays: number }
  | { kind: 'falling-rate'; exponent: number; limitAtDays: number }
  | { kind: 'asymptotic'; asymptoteShare: number; timeConstantDays: number };

export type CleaningPlan = {
  /** Days before the end of the record. The unit stands still from there for `durationHours`. */
  daysAgo: number;
  durationHours: number;
  /** Share of the fouling taken off, 0 to 1. */
  recovers: number;
  /** False: nobody wrote it down. */
  isRecorded: boolean;
  method: string | null;
  cost: number | null;
  /** Growth in the cycle that it begins. */
  growth: GrowthPlan;
};

/** An inlet temperature: shift from the design figure and amplitudes of its swings [K]; `season` peaks in late summer. */
export type TemperaturePlan = { shift: number; season: number; day: number; noise: number };

/** A flow as share of the design figure, and the swings as shares of design; `weekend` is added on Saturday and Sunday. */
export type FlowPlan = { share: number; season: number; day: number; weekend: number; noise: number };

export type OperationPlan = {
  hotIn: TemperaturePlan;
  coldIn: TemperaturePlan;
  hotFlow: FlowPlan;
  coldFlow: FlowPlan;
  /** Local hours of the day [from, to) in which a batch unit runs; null runs all day. */
  batchHours: [number, number][] | null;
  runsAtWeekends: boolean;
};

export type MeasurementPlan = {
  /** Multiples of each sensor's own random and systematic standard uncertainty; 0 is a perfect sensor. */
  noise: number;
  bias: number;
  /** True: logged in the datasheet's units of measure to the last digit a historian keeps. */
  isRounded: boolean;
  unmeasured: Sensor[];
  /** Stretches of some hours in which nothing was logged. */
  gapsPerMonth: number;
  /** Clean pressure drop at design flow [Pa]; null is not measured. */
  hotPressureDrop: number | null;
  coldPressureDrop: number | null;
  /** Power of the flow with which both grow [-]. */
  pressureDropExponent: number;
};

/** What goes wrong, from one day to another before the end of the record. */
export type FaultPlan = { fromDaysAgo: number; toDaysAgo: number } & (
  | { kind: 'dead'; sensor: Sensor; as: 'missing' | 'frozen' }
  /** Grows by `perDay`: K a day for a temperature, a share of the value a day for a flow. */
  | { kind: 'drift'; sensor: Sensor; perDay: number }
  | { kind: 'swapped'; sensors: [Sensor, Sensor] }
  /** `size` in K for a temperature, as a share of the value for a flow. */
  | { kind: 'spikes'; sensor: Sensor; perMonth: number; size: number }
  | { kind: 'out-of-service' }
  | { kind: 'gap' }
);

export type EarlierDatasheet = {
  unit: Unit;
  /** Days before the end of the record. The unit stands still from there for `changeHours`. */
  untilDaysAgo: number;
  changeHours: number;
};

/** One unit and its true history, relative to the end of the record. */
export type UnitPlan = {
  unit: Unit;
  /** Datasheets that held before, until the equipment was changed; the oldest first. */
  earlier: EarlierDatasheet[];
  /** Standard time of the site, ahead of UTC [h]. */
  utcOffsetHours: number;
  /** The cycle already running when the record begins. */
  first: { ageDays: number; growth: GrowthPlan };
  /** Oldest first. */
  cleanings: CleaningPlan[];
  operation: OperationPlan;
  measurement: MeasurementPlan;
  /** True clean conductance over the datasheet's, and true film figures where the datasheet is wrong. */
  cleanScale: number;
  trueFilms: Partial<Films>;
  /** Slow wander of the true fouling about its growth, as share of the limit. */
  wander: number;
  faults: FaultPlan[];
};

const STEADY_TEMPERATURE: TemperaturePlan = { shift: 0, season: 0, day: 0.5, noise: 0.5 };
const STEADY_FLOW: FlowPlan = { share: 0.95, season: 0, day: 0.03, weekend: 0, noise: 0.03 };

/** Round-the-clock duty near the design point. */
export const STEADY_OPERATION: OperationPlan = {
  hotIn: STEADY_TEMPERATURE,
  coldIn: STEADY_TEMPERATURE,
  hotFlow: STEADY_FLOW,
  coldFlow: STEADY_FLOW,
  batchHours: null,
  runsAtWeekends: true,
};

/** Hourly means of installed sensors: part of the stated figures, since these are for single values. */
export const USUAL_MEASUREMENT: MeasurementPlan = {
  noise: 0.6,
  bias: 0.5,
  isRounded: true,
  unmeasured: [],
  gapsPerMonth: 0.5,
  hotPressureDrop: null,
  coldPressureDrop: null,
  // Turbulent flow in smooth channels (METHODS §6).
  pressureDropExponent: 1.8,
};

/** Sensors that tell the plain truth: for tests of the calculation itself. */
export const PERFECT_MEASUREMENT: MeasurementPlan = {
  ...USUAL_MEASUREMENT,
  noise: 0,
  bias: 0,
  isRounded: false,
  gapsPerMonth: 0,
};

/** A plan with everything usual that is not stated. */
export function planUnit(stated: Pick<UnitPlan, 'unit'> & Partial<UnitPlan>): UnitPlan {
  return {
    earlier: [],
    utcOffsetHours: 0,
    first: { ageDays: 0, growth: { kind: 'none' } },
    cleanings: [],
    operation: STEADY_OPERATION,
    measurement: USUAL_MEASUREMENT,
    cleanScale: 1,
    trueFilms: {},
    wander: 0,
    faults: [],
    ...stated,
  };
}
