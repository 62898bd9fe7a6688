import type { LossAt } from './loss-at-fouling';

/** Cleanliness U/Uc from which to which losses are worked out, and at how many points [-]. */
const LEAST_CLEANLINESS = 0.02;
const MOST_CLEANLINESS = 2;
const POINTS = 257;

/** Losses by the fouling, quick to look up. */
export type LossTable = {
  lostDuty: (fouling: number) => number;
  pumping: (fouling: number) => number;
};

/**
 * Losses at even steps of the cleanliness U/Uc = 1/(1 + Uc·Rf), straight lines between: in it the duty is nearly straight over
 * the whole range of fouling. Beyond 98 % of the conductance lost, and beyond twice the clean one, they stay as they are.
 *
 * @param lossAt losses at a fouling [m²·K/W]
 * @param cleanU under the same conditions [W/(m²·K)]
 * @returns lost duty and power of the pumps [W] at any fouling
 * @range  any
 * @source linear interpolation; cleanliness as in HEI Standards for Steam Surface Condensers
 * @check  tests/core/cost/loss-at-fouling.test.ts
 */
export function lossTable(lossAt: (fouling: number) => LossAt, cleanU: number): LossTable {
  const step = (MOST_CLEANLINESS - LEAST_CLEANLINESS) / (POINTS - 1);
  const table = Array.from({ length: POINTS }, (_, i) =>
    lossAt((1 / (LEAST_CLEANLINESS + i * step) - 1) / cleanU),
  );
  const lookUp = (column: Float64Array) => (fouling: number) => {
    const cleanliness = 1 / (1 + cleanU * fouling);
    // A resistance below minus the clean one has no cleanliness: it counts as the cleanest.
    const within = cleanliness > 0 ? Math.min(cleanliness, MOST_CLEANLINESS) : MOST_CLEANLINESS;
    const at = Math.max(0, (within - LEAST_CLEANLINESS) / step);
    const i = Math.min(POINTS - 2, Math.floor(at));
    return column[i]! + (at - i) * (column[i + 1]! - column[i]!);
  };
  return {
    lostDuty: lookUp(Float64Array.from(table, ({ lostDuty }) => lostDuty)),
    pumping: lookUp(Float64Array.from(table, ({ pumping }) => pumping)),
  };
}
