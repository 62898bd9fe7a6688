import { describe, expect, it } from 'vitest';
import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { designConductance } from '@/lib/core/clean/design-conductance';
import type { Exchanger, Side } from '@/lib/core/exchange/exchanger';
import type { Fluid } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { demoPlans } from '@/seed/demo-plan';
import { generateReadings } from '@/seed/generate/generate-readings';
import { MS_PER_DAY } from '@/seed/generate/true-cycles';
import type { UnitPlan } from '@/seed/generate/unit-plan';
import { makeHeldOutFleet, withPerfectSensors } from '@/seed/held-out';

const END = Date.parse('2026-11-25T08:00:00Z');
const SPAN = { start: END - 30 * MS_PER_DAY, end: END, stepMs: 3_600_000, seed: 11 };
/** With perfect sensors only the arithmetic is left (the promise on held-out fleets is 0.3 %). */
const ARITHMETIC = 1e-9;
/** Readings left out although nothing is wrong: at most this share of all. */
const FALSE_ALARMS = 0.005;

const heldOut = [1, 2, 3, 4, 5].flatMap((seed) => makeHeldOutFleet(seed).plans.map(withPerfectSensors));
const demo = demoPlans().map((plan) =>
  withPerfectSensors({ ...plan, cleanScale: 1, trueFilms: {}, faults: [] }),
);

/** METHODS §5 written out again: film resistance at another flow and temperature. */
function film(
  fluid: Fluid,
  exponent: number,
  at: { flow: number; mean: number; refFlow: number; refMean: number },
) {
  const flowPart = (at.flow / at.refFlow) ** -exponent;
  const { conductivity: k, viscosity: mu, specificHeat: cp } = fluid;
  if (k === null || mu === null) return flowPart;
  const ratio = (property: (t: number) => number) => property(at.refMean) / property(at.mean);
  return flowPart * ratio(k) ** (2 / 3) * ratio(cp) ** (1 / 3) * ratio(mu) ** (1 / 3 - exponent);
}

type Reading = {
  hotIn: number;
  hotOut: number;
  coldIn: number;
  coldOut: number;
  hotFlow: number;
  coldFlow: number;
};

function massFlows(exchanger: Exchanger, readings: ReadingColumns, i: number): Reading {
  const { hotIn, hotOut, coldIn, coldOut } = readings;
  const basis = readings.flowBasis[i]!;
  const hotDensity = (basis & 1) === 1 ? makeFluid(exchanger.hot).density!(hotIn[i]!) : 1;
  const coldDensity = (basis & 2) === 2 ? makeFluid(exchanger.cold).density!(coldIn[i]!) : 1;
  return {
    hotIn: hotIn[i]!,
    hotOut: hotOut[i]!,
    coldIn: coldIn[i]!,
    coldOut: coldOut[i]!,
    hotFlow: readings.hotFlow[i]! * hotDensity,
    coldFlow: readings.coldFlow[i]! * coldDensity,
  };
}

function cleanUByHand(exchanger: Exchanger, reading: Reading): number {
  const { design, films } = exchanger;
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  const cleanU = design.cleanU ?? designConductance(exchanger, fluids);
  const hot = film(fluids.hot, films.hotExponent, {
    flow: reading.hotFlow,
    refFlow: design.hotFlow,
    mean: (reading.hotIn + reading.hotOut) / 2,
    refMean: (design.hotIn + design.hotOut) / 2,
  });
  const cold = film(fluids.cold, films.coldExponent, {
    flow: reading.coldFlow,
    refFlow: design.coldFlow,
    mean: (reading.coldIn + reading.coldOut) / 2,
    refMean: (design.coldIn + design.coldOut) / 2,
  });
  const coldShare = 1 - films.hotShare - films.wallShare;
  // A film in which a stream changes phase is taken as constant.
  const hotPart = fluids.hot.phaseChange === null ? films.hotShare * hot : films.hotShare;
  const coldPart = fluids.cold.phaseChange === null ? coldShare * cold : coldShare;
  return cleanU / (films.wallShare + hotPart + coldPart);
}

function logMean(a: number, b: number): number {
  return Math.abs(a - b) < 1e-9 * a ? a : (a - b) / Math.log(a / b);
}

/** Effective mean temperature difference by textbook formulas in temperatures; null where the test has none. */
function meanDifference(exchanger: Exchanger, reading: Reading): number | null {
  const { arrangement } = exchanger;
  const { hotIn, hotOut, coldIn, coldOut } = reading;
  const counter = logMean(hotIn - coldOut, hotOut - coldIn);
  if (makeFluid(exchanger.hot).phaseChange !== null) return counter;
  // Feed boils at one temperature from end to end, however cold it comes.
  if (makeFluid(exchanger.cold).phaseChange !== null) return logMean(hotIn - coldOut, hotOut - coldOut);
  switch (arrangement.kind) {
    case 'counter-current':
      return counter;
    case 'co-current':
      return logMean(hotIn - coldIn, hotOut - coldOut);
    case 'plate':
      return arrangement.hotPasses === arrangement.coldPasses ? counter : null;
    case 'shell-and-tube': {
      const { shellPasses, tubePasses, tubeSide } = arrangement;
      if (shellPasses === 1 && tubePasses === 4) return fourPassDifference(reading, tubeSide);
      return tubePasses === shellPasses ? counter : counter * shellFactor(reading, shellPasses);
    }
    case 'crossflow':
      return null;
  }
}

/** F of n shells with two tube passes each (Bowman, Mueller & Nagle 1940), R not 1. */
function shellFactor({ hotIn, hotOut, coldIn, coldOut }: Reading, shells: number): number {
  const r = (hotIn - hotOut) / (coldOut - coldIn);
  const p = (coldOut - coldIn) / (hotIn - coldIn);
  const w = ((1 - p * r) / (1 - p)) ** (1 / shells);
  const each = (1 - w) / (r - w);
  const s = Math.sqrt(r * r + 1);
  const spread = (2 - each * (r + 1 - s)) / (2 - each * (r + 1 + s));
  return (s / (r - 1)) * (Math.log((1 - each) / (1 - each * r)) / Math.log(spread));
}

/** One shell with four tube passes (Shah & Sekulić 2003, Table 3.6, stream 1 the shell's): the shell's change over its NTU. */
function fourPassDifference({ hotIn, hotOut, coldIn, coldOut }: Reading, tubeSide: Side): number {
  const [hot, cold] = [hotIn - hotOut, coldOut - coldIn];
  const [shell, tubes] = tubeSide === 'cold' ? [hot, cold] : [cold, hot];
  const R = tubes / shell;
  const D = Math.sqrt(4 + R * R);
  const efficiency = (ntu: number) =>
    4 / (2 * (1 + R) + D / Math.tanh((D * ntu) / 4) + R * Math.tanh((R * ntu) / 4));
  const reached = shell / (hotIn - coldIn);
  let [low, high] = [0, 0.01];
  while (efficiency(high) < reached) [low, high] = [high, high + 0.01];
  for (let halving = 0; halving < 60; halving++) {
    const middle = (low + high) / 2;
    if (efficiency(middle) < reached) low = middle;
    else high = middle;
  }
  return shell / high;
}

type Generated = ReturnType<typeof generateReadings> & {
  plan: UnitPlan;
  exchanger: Exchanger;
  running: number[];
};

function generated(plan: UnitPlan): Generated {
  const made = generateReadings(plan, SPAN);
  const running = [...made.truth.isRunning.keys()].filter((i) => made.truth.isRunning[i] === 1);
  return { ...made, plan, exchanger: toExchanger(plan.unit), running };
}

function worstByHand({ exchanger, readings, truth, running }: Generated): number | null {
  const [hot, cold] = [makeFluid(exchanger.hot), makeFluid(exchanger.cold)];
  let worst = 0;
  for (const i of running) {
    const reading = massFlows(exchanger, readings, i);
    const difference = meanDifference(exchanger, reading);
    if (difference === null) return null;
    const after = cold.phaseChange?.vapourEnthalpy(reading.coldOut) ?? cold.enthalpy(reading.coldOut);
    const taken = reading.coldFlow * (after - cold.enthalpy(reading.coldIn));
    const before = hot.phaseChange?.vapourEnthalpy(reading.hotIn) ?? hot.enthalpy(reading.hotIn);
    const given = reading.hotFlow * (before - hot.enthalpy(reading.hotOut));
    const cleanU = cleanUByHand(exchanger, reading);
    const overallU = 1 / (1 / cleanU + truth.foulingResistance[i]!);
    const duty = overallU * exchanger.area * difference;
    worst = Math.max(worst, Math.abs(taken / duty - 1), Math.abs(given / duty - 1));
  }
  return worst;
}

/** Worst departure of the evaluation from the truth: U and clean U relative, fouling as share of the limit. */
function worstEvaluated({ plan, exchanger, readings, truth, running }: Generated) {
  const found = evaluateReadings({ exchanger, settings: toCheckSettings(plan.unit), readings });
  const accepted = running.filter((i) => found.reasons[i] === 0);
  let worst = 0;
  for (const i of accepted) {
    const overallU = 1 / (1 / truth.cleanU[i]! + truth.foulingResistance[i]!);
    worst = Math.max(
      worst,
      Math.abs(found.overallU[i]! / overallU - 1),
      Math.abs(found.cleanU[i]! / truth.cleanU[i]! - 1),
      Math.abs(found.foulingResistance[i]! - truth.foulingResistance[i]!) / truth.limit,
    );
  }
  return { worst, accepted: accepted.length };
}

describe('the truth behind generated readings', () => {
  const records = [...demo, ...heldOut].map(generated);

  it('is what a person finds by hand: both duties equal U·A·F·LMTD with U from clean films and true fouling', () => {
    const worst = records.map(worstByHand).filter((value) => value !== null);
    expect(worst.length).toBeGreaterThan(80);
    expect(Math.max(...worst)).toBeLessThan(ARITHMETIC);
  });

  it('is what the evaluation finds with perfect sensors, for every arrangement, fluid and unit of measure', () => {
    const results = records.map(worstEvaluated);
    expect(Math.max(...results.map(({ worst }) => worst))).toBeLessThan(ARITHMETIC);
    const accepted = results.reduce((sum, each) => sum + each.accepted, 0);
    const running = records.reduce((sum, each) => sum + each.running.length, 0);
    expect(1 - accepted / running).toBeLessThan(FALSE_ALARMS);
  });
});
