import type { Limit } from '@/lib/core/exchange/exchanger';
import { designState, type ForwardModel, solveOutlets } from './forward-model';
import type { MeasurementPlan } from './unit-plan';

/** Bisection of an outlet-temperature limit: 2^-60 of the bracket is below a double's resolution. */
const BISECTIONS = 60;
/** Fouling at which a unit would have a hundredth of its clean conductance: past any limit worth stating. */
const HOPELESS = 99;

/** A deposit at the first thermal limit narrows the channels enough to raise the pressure drop by this share. */
export const PRESSURE_DROP_RISE = 0.5;

/**
 * The fouling at which a unit reaches the first of its limits at the conditions of its datasheet, and the first of those
 * that are not of a pressure drop: the pressure drop grows in terms of it [m²·K/W].
 */
export function limitFoulingResistance(
  model: ForwardModel,
  clean: Pick<MeasurementPlan, 'hotPressureDrop' | 'coldPressureDrop'>,
): { first: number; thermal: number } {
  const { limits } = model.exchanger;
  const each = limits.map((limit) => atLimit(model, limit)).filter((value) => value !== null);
  if (each.length === 0) throw new RangeError('no limit of this unit can be reached by fouling');
  const thermal = Math.min(...each);
  const drops = limits.map((limit) => atPressureDrop(limit, clean, thermal));
  return { first: Math.min(thermal, ...drops), thermal };
}

/** The fouling at which a pressure drop reaches its limit; Infinity for any other limit, and where none is measured. */
function atPressureDrop(
  limit: Limit,
  plan: Pick<MeasurementPlan, 'hotPressureDrop' | 'coldPressureDrop'>,
  thermal: number,
): number {
  const clean = limit.kind === 'pressure-drop' ? plan[`${limit.stream}PressureDrop`] : null;
  if (limit.kind !== 'pressure-drop' || clean === null) return Number.POSITIVE_INFINITY;
  return (thermal * (limit.above / clean - 1)) / PRESSURE_DROP_RISE;
}

function atLimit(model: ForwardModel, limit: Limit): number | null {
  const cleanResistance = model.reference.factors.wall / model.reference.cleanUDesign;
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
