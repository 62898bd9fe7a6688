import type { GrowthPlan } from '@/seed/generate/unit-plan';

export const SCENARIOS = ['usual', 'hard', 'unrecorded', 'young'] as const;
export type Scenario = (typeof SCENARIOS)[number];

export const SETS = ['tune', 'held-out'] as const;
export type SetName = (typeof SETS)[number];

export const MECHANISMS = ['linear', 'delayed-linear', 'falling-rate', 'asymptotic'] as const;
export type Mechanism = Extract<GrowthPlan['kind'], (typeof MECHANISMS)[number]>;

type Range = [number, number];

/** What the units of a set are drawn from; uniform between the two figures where a range is given. */
export type Ranges = {
  /** Days from clean to the limit at the unit's mean rate (own choice: a cleaning every quarter to every year). */
  lifeDays: Range;
  /** Lognormal deviation from cycle to cycle of how fast time runs for the deposit, and of its form (own choice). */
  rateSpread: Range;
  formSpread: number;
  delaySpread: number;
  /** Delay as share of the life; exponent of a falling rate; asymptote over the limit (own choice: each form both mild and strong). */
  delayShare: Range;
  exponent: Range;
  asymptoteShare: Range;
  /** Share of the deposit that a cleaning takes off (common practice: chemical or mechanical cleaning of a whole unit). */
  recovers: Range;
  /** How far beyond the limit a unit runs before it is cleaned, as share of its life (own choice). */
  overrun: Range;
  /** Share of units whose deposit changes its mechanism or its rate for good in the middle of the record (own choice). */
  changing: number;
  /** Share of units whose true clean conductance is not the datasheet's, and the factor on it; theirs is learned. */
  learned: number;
  cleanScale: Range;
  /** The datasheet's limit times this: it stands at a deposit of 0.3 of the clean resistance there. */
  limitScale: Range;
  /** Standard uncertainty of thermometers [K] and flow meters [share], half their variance systematic (common practice). */
  thermometer: Range;
  flowMeter: Range;
  /**
   * Error planted, in multiples of what the datasheet states: the random part (a logged hourly mean has less of it than a
   * single value; as in the demo fleet), and the systematic one.
   */
  noise: number;
  bias: number;
  /** Hours between readings. */
  stepHours: number[];
  /** Swings: of the cold inlet with the season [K]; of the flows, as shares of design, with season, weekend and weather (own
   * choice: 20 to 35 % to either side between them). */
  coldSeason: Range;
  flowSeason: Range;
  flowWeekend: Range;
  flowNoise: Range;
  /** Slow coming and going of the deposit about its growth, as share of the limit (own choice). */
  wander: Range;
  /** In the scenario `hard`: error of each film exponent, and drift of a thermometer over a cycle [K]. */
  exponentError: number;
  drift: Range;
  /** In the scenario `unrecorded`: shares of cleanings nobody wrote down, and of partial ones with what they take off. */
  unrecorded: number;
  partial: number;
  partialRecovers: Range;
};

const TUNE: Ranges = {
  lifeDays: [100, 330],
  rateSpread: [0.15, 0.2],
  formSpread: 0.1,
  delaySpread: 0.25,
  delayShare: [0.1, 0.4],
  exponent: [0.4, 0.9],
  asymptoteShare: [1.15, 2.5],
  recovers: [0.85, 1],
  overrun: [0, 0.08],
  changing: 0.15,
  learned: 0.6,
  cleanScale: [0.9, 1.1],
  limitScale: [0.8, 1.3],
  thermometer: [0.1, 0.2],
  flowMeter: [0.01, 0.015],
  noise: 0.6,
  // A plant checks its meters against each other: the worst offsets have been found (own choice).
  bias: 0.7,
  stepHours: [2, 3, 4],
  coldSeason: [2, 7],
  flowSeason: [0.05, 0.18],
  flowWeekend: [-0.15, 0],
  flowNoise: [0.03, 0.08],
  wander: [0.005, 0.015],
  exponentError: 0.15,
  drift: [0.1, 0.3],
  unrecorded: 0.3,
  partial: 0.25,
  partialRecovers: [0.3, 0.7],
};

/** Disjoint seeds, and other figures where they could have been tuned on. */
const HELD_OUT: Ranges = {
  ...TUNE,
  lifeDays: [90, 360],
  rateSpread: [0.13, 0.2],
  delayShare: [0.08, 0.35],
  exponent: [0.45, 0.85],
  asymptoteShare: [1.2, 2.3],
  recovers: [0.87, 0.99],
  overrun: [0.01, 0.1],
  learned: 0.55,
  limitScale: [0.85, 1.25],
  thermometer: [0.1, 0.22],
  flowMeter: [0.008, 0.015],
  coldSeason: [3, 7],
  flowSeason: [0.08, 0.2],
  flowNoise: [0.02, 0.07],
  unrecorded: 0.25,
};

export const RANGES: Record<SetName, Ranges> = { tune: TUNE, 'held-out': HELD_OUT };

/** A seed for one unit: those of sets, scenarios and attempts never meet. */
export function seedOf({ set, scenario, seed, index }: UnitKey, attempt: number): number {
  const series = SETS.indexOf(set) * SCENARIOS.length + SCENARIOS.indexOf(scenario);
  return ((seed * SETS.length * SCENARIOS.length + series) * MOST_UNITS + index) * MOST_ATTEMPTS + attempt;
}

const MOST_UNITS = 10_000;
/** A plan whose inlets do not suit its unit is drawn anew, so often at most. */
export const MOST_ATTEMPTS = 20;

/** Which unit of which simulated fleet. */
export type UnitKey = { set: SetName; scenario: Scenario; seed: number; index: number };
