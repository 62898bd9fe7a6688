import type { PropertyColumn } from './property-rows';

/** Properties that the product uses for a stream over the whole range of its fluid, in SI; null where there is no number. */
export type FluidCurves = {
  name: string;
  /** °C, ascending, from the lowest to the highest temperature of the fluid. */
  temperatures: number[];
  /** A property that the fluid does not state is left out. */
  properties: Partial<Record<Exclude<PropertyColumn, 'temperature'>, (number | null)[]>>;
};
