import { findRoot } from '../fit/brent';
import { counterCurrentTransferUnits } from './pure-flow';

/** Relative width of the final bracket [-], on top of the few ulp that the root finder itself allows. */
const RELATIVE_TOLERANCE = 1e-15;
/** The bracket's upper end goes this many times as far as proportion says, to pass the root in one step [-]. */
const OVERSHOOT = 1.5;

/** What to reach [-], at which Cr [-], and the NTU [-] up to which the effectiveness rises (or is looked for). */
export type TransferUnitsTarget = { effectiveness: number; capacityRatio: number; largest: number };

/**
 * Inverse of an effectiveness that has no closed one, on its rising branch.
 *
 * Works on the counter-current NTU of ε(NTU), which is nearly proportional to NTU, so that few steps are needed; the
 * counter-current NTU of the target is the lower end of the bracket because no arrangement surpasses counter-current flow.
 *
 * @param effectivenessAt ε(NTU) at the target's Cr, rising up to `largest` [-]
 * @param target          effectiveness [-], above 0 and below 1; capacityRatio [-]; largest NTU [-]
 * @returns NTU [-]; NaN if the effectiveness is not reached up to `largest`
 * @range any
 * @source counter-current NTU = F·NTU: Shah & Sekulić, Fundamentals of Heat Exchanger Design, 2003, sec. 3.7
 * @check tests/core/exchange/transfer-units.test.ts
 */
export function solveTransferUnits(effectivenessAt: (ntu: number) => number, target: TransferUnitsTarget): number {
  const { capacityRatio, largest } = target;
  const goal = counterCurrentTransferUnits(target.effectiveness, capacityRatio);
  const excess = (ntu: number) =>
    counterCurrentTransferUnits(Math.min(1, effectivenessAt(ntu)), capacityRatio) / goal - 1;
  let low = goal;
  let below = excess(low);
  // F = 1 to the last digit, as at very small NTU.
  if (below >= 0) return low <= largest ? low : Number.NaN;
  while (low < largest) {
    const high = Math.min(largest, low * (1 - (OVERSHOOT * below) / (1 + below)));
    const above = excess(high);
    if (above >= 0) return findRoot(excess, low, high, { tolerance: RELATIVE_TOLERANCE * low });
    if (high === low) return low;
    low = high;
    below = above;
  }
  return Number.NaN;
}
