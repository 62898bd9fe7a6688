import type { Side } from '@/lib/core/exchange/exchanger';
import { findRoot } from '@/lib/core/fit/brent';
import { type ForwardModel, solveOutlets, type UnitState } from './forward-model';
import { MOST_FLOW_SHARE } from './operation';

/** A valve that is as good as closed leaks this share of the design flow: above where the clean films are unknown. */
const LEAST_VALVE_SHARE = 0.32;
/** The valve is set to this share of the design flow: closer than any meter shows. */
const VALVE_TOLERANCE = 1e-7;

/**
 * Lets the control valve of a unit work, where it has one: the flow of the other stream is set so that the held outlet is at
 * its design temperature, as far as the valve reaches. Outlets, duty and that flow are written into `state`.
 *
 * @returns false where no outlets were found
 */
export function solveWithValve(model: ForwardModel, state: UnitState): boolean {
  const { losses, design } = model.exchanger;
  const held = losses.heldOutlet;
  if (held === null) return solveOutlets(model, state);
  const other: Side = held === 'hot' ? 'cold' : 'hot';
  const designFlow = design[`${other}Flow`];
  const most = (losses.maximumFlow[other] ?? MOST_FLOW_SHARE * designFlow) / designFlow;
  const outletAt = (share: number) => {
    state[`${other}Flow`] = share * designFlow;
    return solveOutlets(model, state) ? state[`${held}Out`] : Number.NaN;
  };
  // More flow of the other stream cools a hot outlet and warms a cold one.
  const lacking = (share: number) => {
    const difference = outletAt(share) - design[`${held}Out`];
    return held === 'hot' ? difference : -difference;
  };
  const share = findRoot(lacking, LEAST_VALVE_SHARE, most, { tolerance: VALVE_TOLERANCE });
  if (!Number.isNaN(share)) return !Number.isNaN(outletAt(share));
  return !Number.isNaN(outletAt(lacking(most) > 0 ? most : LEAST_VALVE_SHARE));
}
