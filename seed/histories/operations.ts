import { type OperationPlan, STEADY_OPERATION } from '../generate/unit-plan';

// How the two sites run their units: seasons of sea, air and heat demand, days, weeks and batches.

const FLOW = { share: 0.93, season: 0, day: 0.03, weekend: 0, noise: 0.03 };
const STEADY = { shift: 0, season: 0, day: 0.4, noise: 0.4 };

/** Milk and whey lines: from early milking to the evening wash. */
export const PRODUCT_LINE: OperationPlan = { ...STEADY_OPERATION, batchHours: [[4, 22]] };

/** A product line cooled with tower water. */
export const PRODUCT_ON_TOWER: OperationPlan = {
  ...PRODUCT_LINE,
  hotIn: { shift: -1, season: 1, day: 0.3, noise: 0.5 },
  coldIn: { shift: -2, season: 3, day: 0.8, noise: 0.7 },
};

/** Two wash shifts a day. */
export const HOT_WASH: OperationPlan = {
  hotIn: STEADY,
  coldIn: { shift: 0, season: 1.5, day: 0.5, noise: 1.2 },
  hotFlow: FLOW,
  coldFlow: { ...FLOW, share: 0.88, day: 0.06, noise: 0.05 },
  batchHours: [
    [6, 12],
    [14, 21],
  ],
  runsAtWeekends: true,
};

/** The crate washer rests at weekends. */
export const CRATE_WASH: OperationPlan = { ...HOT_WASH, batchHours: [[6, 15]], runsAtWeekends: false };

/** The sea off a mild coast, 13 to 20 °C. */
export const MILD_SEA: OperationPlan = {
  hotIn: { shift: -1, season: 2.2, day: 0.4, noise: 0.5 },
  coldIn: { shift: -0.5, season: 3, day: 0.3, noise: 0.5 },
  hotFlow: { ...FLOW, share: 0.94, weekend: -0.08 },
  coldFlow: { ...FLOW, share: 0.97, noise: 0.02 },
  batchHours: null,
  runsAtWeekends: true,
};

/** Cooling-tower water follows the wet bulb through the day and the year. */
export const TOWER: OperationPlan = {
  ...MILD_SEA,
  hotIn: { shift: -1.5, season: 2.8, day: 0.8, noise: 0.7 },
  coldIn: { shift: -1.5, season: 3, day: 1, noise: 0.8 },
};

/** Outdoor air on a mild coast. */
export const MILD_AIR: OperationPlan = {
  ...STEADY_OPERATION,
  hotIn: { shift: 0, season: 0, day: 0.8, noise: 1 },
  coldIn: { shift: -4, season: 5, day: 3, noise: 1.5 },
};

/** The heat demand of a town: hot and full in winter, cooler and less in summer. */
export const TOWN_HEAT: OperationPlan = {
  hotIn: { shift: -7, season: -6, day: 0.6, noise: 1.2 },
  coldIn: { shift: -2, season: -2, day: 0.5, noise: 0.6 },
  hotFlow: { share: 0.84, season: -0.18, day: -0.04, weekend: -0.02, noise: 0.04 },
  coldFlow: { share: 0.84, season: -0.18, day: -0.04, weekend: -0.02, noise: 0.04 },
  batchHours: null,
  runsAtWeekends: true,
};

/** Tap water: cold mains in winter, two peaks of use blurred into a daily swing. */
export const TAP_WATER: OperationPlan = {
  ...TOWN_HEAT,
  hotIn: { shift: -3, season: -2, day: 0.5, noise: 0.8 },
  coldIn: { shift: 1, season: 4, day: 0.3, noise: 0.4 },
  hotFlow: { share: 0.8, season: -0.05, day: 0.12, weekend: 0.04, noise: 0.05 },
  coldFlow: { share: 0.8, season: -0.05, day: 0.12, weekend: 0.04, noise: 0.05 },
};

/** The water of a swimming hall comes back much the same all year. */
export const POOL_WATER: OperationPlan = {
  ...TAP_WATER,
  coldIn: { shift: 0, season: 0.8, day: 0.3, noise: 0.3 },
  coldFlow: { share: 0.92, season: -0.02, day: 0.03, weekend: 0.03, noise: 0.03 },
};

/** District-heat condensers: back-pressure steam, return water by season. */
export const HEAT_CONDENSER: OperationPlan = {
  ...TOWN_HEAT,
  hotIn: { shift: -2, season: -2.5, day: 0.5, noise: 0.8 },
  coldIn: { shift: -1, season: -2, day: 0.5, noise: 0.6 },
};

/** A northern sea, near freezing to 18 °C. */
export const NORTHERN_SEA: OperationPlan = {
  hotIn: { shift: -2, season: 4.5, day: 0.3, noise: 0.5 },
  coldIn: { shift: -2.5, season: 6.5, day: 0.2, noise: 0.5 },
  hotFlow: { ...FLOW, share: 0.92, noise: 0.025 },
  coldFlow: { ...FLOW, share: 0.95, noise: 0.025 },
  batchHours: null,
  runsAtWeekends: true,
};

/** Outdoor air in the north. */
export const NORTHERN_AIR: OperationPlan = {
  ...STEADY_OPERATION,
  hotIn: { shift: -5, season: 5, day: 0.8, noise: 0.8 },
  coldIn: { shift: -6, season: 9, day: 2.5, noise: 2 },
};

/** A pump of one speed gives the make-up water; the hot side follows its load. */
export const FIXED_SPEED_MAKE_UP: OperationPlan = {
  ...STEADY_OPERATION,
  coldFlow: { share: 0.96, season: 0, day: 0, weekend: 0, noise: 0.01 },
};

/** Hot water from the boiler loop, and feed from the condensate tank. */
export const STEAM_RAISING: OperationPlan = {
  ...STEADY_OPERATION,
  hotIn: { shift: 0, season: 0, day: 0.6, noise: 1 },
  coldIn: { shift: -1, season: 1, day: 0.5, noise: 1 },
};
