import type { Random } from '@/lib/core/stats/random';

/** Kinds of growth whose cycles end at the limit. */
export const GROWING_KINDS = ['linear', 'delayed-linear', 'falling-rate', 'asymptotic'] as const;
export type GrowingKind = (typeof GROWING_KINDS)[number];

/** Fouling resistance at which every simulated cycle ends [m²·K/W]. */
export const LIMIT = 2e-4;
/** Standard deviation of a daily figure, as a share of the limit. */
export const NOISE = 0.05;

/** A cycle whose smooth curve is known: it reaches LIMIT at `lifeDays`. */
export type SimulatedCycle = {
  kind: GrowingKind;
  lifeDays: number;
  smooth: (ageDays: number) => number;
  /** Mean slope of the smooth curve over its life [m²·K/W per day]. */
  autocorrelation: number;
};

const between = (random: Random, low: number, high: number) => low + random.uniform() * (high - low);

/** A cycle of one kind with life, start, shape and autocorrelation drawn from ranges seen in plants. */
export function simulateCycle(random: Random, kind: GrowingKind): SimulatedCycle {
  const lifeDays = Math.round(between(random, 80, 480));
  const start = between(random, 0, 0.1) * LIMIT;
  const form = formOf(random, kind, lifeDays);
  const growth = (LIMIT - start) / form(lifeDays);
  return {
    kind,
    lifeDays,
    smooth: (ageDays) => start + growth * form(ageDays),
    autocorrelation: between(random, 0, 0.7),
  };
}

function formOf(random: Random, kind: GrowingKind, life: number): (t: number) => number {
  if (kind === 'linear') return (t) => t;
  if (kind === 'delayed-linear') {
    const delay = between(random, 0.05, 0.35) * life;
    return (t) => Math.max(0, t - delay);
  }
  if (kind === 'falling-rate') {
    const exponent = between(random, 0.4, 0.9);
    return (t) => t ** exponent;
  }
  // The asymptote lies 15 to 150 % above the limit.
  const timeConstant = -life / Math.log(1 - 1 / between(random, 1.15, 2.5));
  return (t) => -Math.expm1(-t / timeConstant);
}

/** Daily figures of a cycle up to an age: AR(1) noise, single days missing at random, and sometimes an outage. */
export function observeCycle(random: Random, cycle: SimulatedCycle, untilDays: number) {
  const missing = between(random, 0, 0.3);
  const outageFrom = random.uniform() < 0.5 ? between(random, 0, 0.8) * untilDays : Number.POSITIVE_INFINITY;
  const outageTo = outageFrom + between(random, 0.05, 0.2) * untilDays;
  const ageDays: number[] = [];
  const foulingResistance: number[] = [];
  const fresh = Math.sqrt(1 - cycle.autocorrelation ** 2);
  let noise = random.normal();
  for (let age = 1; age <= untilDays; age++) {
    noise = cycle.autocorrelation * noise + fresh * random.normal();
    if (random.uniform() < missing || (age >= outageFrom && age < outageTo)) continue;
    ageDays.push(age);
    foulingResistance.push(cycle.smooth(age) + NOISE * LIMIT * noise);
  }
  return {
    ageDays: Float64Array.from(ageDays),
    foulingResistance: Float64Array.from(foulingResistance),
    uncertainty: new Float64Array(ageDays.length).fill(0.03 * LIMIT),
  };
}
