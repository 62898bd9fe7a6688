import { firstRows, floatColumns } from '../series/float-columns';
import type { FittedModel, GrowthCurve, GrowthModelName } from './growth';

/** An amplitude is clearly positive from this many standard deviations on. */
const CLEARLY_POSITIVE = 4;
/**
 * Otherwise the positive part of its distribution is cut into this many slices, the thinner the nearer to 0: a normal curve in
 * place of each reaches a little over the cut. Quantiles of the amplitude are then within a thirtieth of its standard deviation,
 * shares of its distribution within a fortieth.
 */
const SLICES = 16;
const EDGES = Float64Array.from({ length: SLICES + 1 }, (_, k) => (k / SLICES) ** 1.25);
/** Two values for each slice, this share of its width from its middle, tell its weight and its mean [-]. */
const NODE = 1 / Math.sqrt(12);
/** Curves of less weight than this are left out, and slices of less than their part of it. */
const LEAST_WEIGHT = 1e-4;

/** Prior weight of each model. */
export type Votes = Record<GrowthModelName, number>;

const COLUMNS = ['weights', 'r0', 'amplitudes', 'r0Variances', 'amplitudeVariances', 'covariances'] as const;

/**
 * Curves of all models, or slices of them, one value each: r0 [m²·K/W] and amplitude are normal with the given variances; the weights
 * add to 1 [-].
 */
export type Components = Record<(typeof COLUMNS)[number], Float64Array>;

/** Neighbouring components that share a form: slices of one curve. */
export type Slices = { name: GrowthModelName; shape: number; from: number; to: number };

/**
 * The curves of all models by their weights. Rates are not negative: an amplitude that may be below 0 is cut into slices over
 * its positive part.
 *
 * @param models models with their curves [m²·K/W, days]
 * @param votes prior weight of each model [-]
 * @returns components, and which of them share a form
 * @range at least one curve of some weight
 * @source Burnham & Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002, sect. 4.3; Gauss–Legendre rule of two points:
 *   Abramowitz & Stegun, table 25.4
 * @check tests/core/growth/mixture.test.ts
 */
export function componentsOf(
  models: readonly FittedModel[],
  votes: Votes,
): { components: Components; slices: Slices[] } {
  const room = floatColumns(COLUMNS, placesFor(models, votes));
  const slices: Slices[] = [];
  let from = 0;
  for (const { name, curves, weight } of models) {
    for (const curve of curves) {
      const to = addCurve(room, from, { name, curve, weight: votes[name] * weight * curve.weight });
      const last = slices.at(-1);
      if (last?.name === name && last.shape === curve.shape) last.to = to;
      else if (to > from) slices.push({ name, shape: curve.shape, from, to });
      from = to;
    }
  }
  shareOut(room.weights, [0, from], 1);
  return { components: firstRows(room, from), slices };
}

/** Places that the components take at most. */
function placesFor(models: readonly FittedModel[], votes: Votes): number {
  let places = 0;
  for (const { name, curves, weight } of models) {
    for (const curve of curves)
      if (!(votes[name] * weight * curve.weight < LEAST_WEIGHT)) places += isWhole(name, curve) ? 1 : SLICES;
  }
  return places;
}

/** Whether a curve is one component: it has no amplitude, or one clear of nothing. */
function isWhole(name: GrowthModelName, { amplitude, amplitudeVariance }: GrowthCurve): boolean {
  return name === 'none' || !(amplitude < CLEARLY_POSITIVE * Math.sqrt(amplitudeVariance));
}

/** Makes the weights of some components add to a total. */
function shareOut(weights: Float64Array, [from, to]: readonly [number, number], total: number): void {
  let sum = 0;
  for (let i = from; i < to; i++) sum += weights[i]!;
  for (let i = from; i < to; i++) weights[i] = (total * weights[i]!) / sum;
}

type Weighed = { name: GrowthModelName; curve: GrowthCurve; weight: number };

/** Adds the components of a curve from a place on; returns the place behind the last of them. */
function addCurve(room: Components, from: number, { name, curve, weight }: Weighed): number {
  if (weight < LEAST_WEIGHT) return from;
  if (!isWhole(name, curve)) return addSlices(room, from, { curve, weight });
  room.weights[from] = weight;
  room.r0[from] = curve.r0;
  room.amplitudes[from] = curve.amplitude;
  room.r0Variances[from] = curve.r0Variance;
  room.amplitudeVariances[from] = curve.amplitudeVariance;
  room.covariances[from] = curve.covariance;
  return from + 1;
}

function addSlices(room: Components, from: number, { curve, weight }: Omit<Weighed, 'name'>): number {
  const deviation = Math.sqrt(curve.amplitudeVariance);
  const end = Math.max(curve.amplitude, 0) + CLEARLY_POSITIVE * deviation;
  const slope = curve.covariance / curve.amplitudeVariance;
  // Densities relative to that at 0 or at the centre, so that none of them underflows.
  const centre = Math.min(0, curve.amplitude / deviation) ** 2;
  const density = (amplitude: number) =>
    Math.exp((centre - ((amplitude - curve.amplitude) / deviation) ** 2) / 2);
  for (let k = 0; k < SLICES; k++) {
    const i = from + k;
    const width = end * (EDGES[k + 1]! - EDGES[k]!);
    const middle = end * EDGES[k]! + width / 2;
    const [left, right] = [density(middle - NODE * width), density(middle + NODE * width)];
    // Far above an amplitude below 0 there is nothing left, nor a mean of it.
    const lean = left > 0 ? (right - left) / (right + left) : 0;
    const amplitude = middle + lean * NODE * width;
    room.weights[i] = width * (left + right);
    room.amplitudes[i] = amplitude;
    room.r0[i] = curve.r0 + slope * (amplitude - curve.amplitude);
    room.r0Variances[i] = Math.max(0, curve.r0Variance - slope * curve.covariance);
    room.amplitudeVariances[i] = (width * width) / 12;
    room.covariances[i] = 0;
  }
  shareOut(room.weights, [from, from + SLICES], weight);
  return withoutLight(room, from);
}

/** Leaves out slices of hardly any weight; returns the place behind those that are kept. */
function withoutLight(room: Components, from: number): number {
  const columns = Object.values(room);
  let to = from;
  for (let i = from; i < from + SLICES; i++) {
    if (!(room.weights[i]! > LEAST_WEIGHT / SLICES)) continue;
    if (to < i) for (const column of columns) column[to] = column[i]!;
    to++;
  }
  return to;
}
