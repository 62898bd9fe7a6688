import type { Limit } from '@/lib/core/exchange/exchanger';
import { designState, type ForwardModel, solveOutlets } from './forward-model';

/** Bisection of an outlet-temperature limit: 2^-60 of the bracket is below a double's resolution. */
const BISECTIONS = 60;
/** Fouling at which a unit would have a hundredth of its clean conductance: past any limit worth stating. */
const HOPELESS = 99;

/** The fouling at which a unit reaches the first of its limits at the conditions of its datasheet [m²·K/W]. */
export function limitFoulingResistance(model: ForwardModel): number {
  const each = model.exchanger.limits.map((limit) => atLimit(model, limit)).filter((value) => value !== null);
  if (each.length === 0) throw new RangeError('no limit of this unit can be reached by fouling');
  return Math.min(...each);
}

function atLimit(model: ForwardModel, limit: Limit): number | null {
  const cleanResistance = model.reference.scale / model.reference.cleanUDesign;
  switch (limit.kind) {
    case 'fouling-resistance':
      return limit.value;
    case 'cleanliness':
      return (1 / limit.below - 1) * cleanResistance;
    case 'outlet-temperature':
      return atOutletLimit(model, limit, HOPELESS * cleanResistance);
    case 'pressure-drop':
      return null;
  }
}

function atOutletLimit(
  model: ForwardModel,
  limit: Extract<Limit, { kind: 'outlet-temperature' }>,
  largest: number,
): number | null {
  const isWithin = (foulingResistance: number) => {
    const state = { ...designState(model), foulingResistance };
    solveOutlets(model, state);
    const outlet = limit.stream === 'hot' ? state.hotOut : state.coldOut;
    return limit.above === null ? outlet > limit.below! : outlet < limit.above;
  };
  if (!isWithin(0) || isWithin(largest)) return null;
  let [low, high] = [0, largest];
  for (let i = 0; i < BISECTIONS; i++) {
    const middle = (low + high) / 2;
    if (isWithin(middle)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
