import type { GrowthModelName } from './growth';

/** One form of growth: a model and its delay [days], exponent [-] or time constant [days]; 0 where it has no shape. */
export type GrowthForm = { name: GrowthModelName; shape: number };

export type ShapedName = 'delayed-linear' | 'falling-rate' | 'asymptotic';

/**
 * Scale on which shapes are compared between cycles, the stretch of it that is covered, the distance of neighbours and
 * the standard deviation from cycle to cycle of one unit (own choice: a delay repeats itself worst). Delays and time
 * constants are compared by their logarithm.
 */
const SCALES: Record<ShapedName, { from: number; to: number; step: number; spread: number; isLog: boolean }> =
  {
    'delayed-linear': { from: Math.log(2), to: Math.log(600), step: 0.15, spread: 0.3, isLog: true },
    'falling-rate': { from: 0.2, to: 0.98, step: 0.03, spread: 0.07, isLog: false },
    asymptotic: { from: Math.log(4), to: Math.log(3000), step: 0.12, spread: 0.2, isLog: true },
  };

/** Whether a model has a shape. */
export function isShaped(name: GrowthModelName): name is ShapedName {
  return name !== 'none' && name !== 'linear';
}

/** Place of a shape on the scale of its model [-]. */
export function placeOf(name: ShapedName, shape: number): number {
  return SCALES[name].isLog ? Math.log(shape) : shape;
}

/** Shape at a place: the inverse of `placeOf`. */
export function shapeAt(name: ShapedName, place: number): number {
  return SCALES[name].isLog ? Math.exp(place) : place;
}

/** Lower and upper end of the places covered. */
export function placesCovered(name: ShapedName): [number, number] {
  return [SCALES[name].from, SCALES[name].to];
}

/** Distance of neighbouring places. */
export function placeStep(name: ShapedName): number {
  return SCALES[name].step;
}

/** Standard deviation of a place from one cycle of a unit to another [-]. */
export function placeSpread(name: ShapedName): number {
  return SCALES[name].spread;
}

/** Every form that the cycles of a unit are compared on, model by model, shapes ascending. */
export const GROWTH_FORMS: readonly GrowthForm[] = [
  { name: 'none', shape: 0 },
  { name: 'linear', shape: 0 },
  ...(['delayed-linear', 'falling-rate', 'asymptotic'] as const).flatMap((name) => {
    const { from, to, step } = SCALES[name];
    return Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => ({
      name,
      shape: shapeAt(name, from + i * step),
    }));
  }),
];
