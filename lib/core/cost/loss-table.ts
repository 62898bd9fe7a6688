import type { LossAt } from './loss-at-fouling';

/** Cleanliness U/Uc from which to which losses are worked out, and at how many points [-]. */
const LEAST_CLEANLINESS = 0.02;
const MOST_CLEANLINESS = 2;
const POINTS = 257;

/** Losses by the fouling, quick to look up. */
export type LossTable = {
  /** Expected losses [W] over values of the fouling [m²·K/W], with weights that add to 1. */
  expected: (fouling: Float64Array, weights: Float64Array) => LossAt;
};

/**
 * Losses at even steps of the cleanliness U/Uc = 1/(1 + Uc·Rf), straight lines between: in it the duty is nearly straight over
 * the whole range of fouling. Beyond 98 % of the conductance lost, and beyond twice the clean one, they stay as they are.
 *
 * @param lossAt losses at a fouling [m²·K/W]
 * @param cleanU under the same conditions [W/(m²·K)]
 * @returns expected lost duty and power of the pumps [W] over any values of the fouling
 * @range  any
 * @source linear interpolation; cleanliness as in HEI Standards for Steam Surface Condensers
 * @check  tests/core/cost/loss-at-fouling.test.ts
 */
export function lossTable(lossAt: (fouling: number) => LossAt, cleanU: number): LossTable {
  const step = (MOST_CLEANLINESS - LEAST_CLEANLINESS) / (POINTS - 1);
  const lostDuty = new Float64Array(POINTS);
  const pumping = new Float64Array(POINTS);
  const isKnown = new Uint8Array(POINTS);
  // Only when it is asked for: most of the range lies far from any fouling that a unit comes to.
  const makeKnown = (i: number) => {
    const losses = lossAt((1 / (LEAST_CLEANLINESS + i * step) - 1) / cleanU);
    lostDuty[i] = losses.lostDuty;
    pumping[i] = losses.pumping;
    isKnown[i] = 1;
  };
  return {
    expected: (fouling, weights) => {
      let lost = 0;
      let pumped = 0;
      for (let k = 0; k < fouling.length; k++) {
        const cleanliness = 1 / (1 + cleanU * fouling[k]!);
        // A resistance below minus the clean one has no cleanliness: it counts as the cleanest.
        const within = cleanliness > 0 ? Math.min(cleanliness, MOST_CLEANLINESS) : MOST_CLEANLINESS;
        const place = Math.max(0, (within - LEAST_CLEANLINESS) / step);
        const i = Math.min(POINTS - 2, Math.floor(place));
        if (isKnown[i] === 0) makeKnown(i);
        if (isKnown[i + 1] === 0) makeKnown(i + 1);
        const share = place - i;
        const weight = weights[k]!;
        lost += weight * (lostDuty[i]! + share * (lostDuty[i + 1]! - lostDuty[i]!));
        pumped += weight * (pumping[i]! + share * (pumping[i + 1]! - pumping[i]!));
      }
      return { lostDuty: lost, pumping: pumped };
    },
  };
}
