import * as care from './care-notes';
import { cleaningOf, energyOf, q, sensorsOf, undatedEnergyOf } from './quantities';

// Standard uncertainties, supplies and cleaning terms that several units of the two sites share.

/** Matched resistance thermometers and magnetic meters, calibrated twice a year. */
export const PRODUCT_SENSORS = sensorsOf(q(0.1, 'K'), 0.01, 0.01);
export const PLANT_SENSORS = sensorsOf(q(0.2, 'K'), 0.015, 0.015);
export const US_SENSORS = sensorsOf(q(0.3, '[degF]'), 0.015, 0.015);
/** Approved heat meters at both ends. */
export const HEAT_METERS = sensorsOf(q(0.1, 'K'), 0.01, 0.01);
/** Air flow is known from the fan, not measured well. */
export const AIR_SENSORS = sensorsOf(q(0.3, 'K'), 0.015, 0.04);

export const NATURAL_GAS = 'natural gas';
export const ELECTRICITY = 'electricity';
export const PRODUCED_HEAT = 'district heat';

export const STEAM_SAVED = energyOf('heating', { supply: NATURAL_GAS, efficiency: 0.88 });
export const HEAT_RECOVERED = energyOf('recovery', { supply: NATURAL_GAS, efficiency: 0.88 });
export const COLD_MADE = energyOf('cooling', { supply: ELECTRICITY, efficiency: 3.6 });
export const TOWER_COOLING = energyOf('cooling', { supply: ELECTRICITY, efficiency: 12 });
export const DISTRICT_HEAT = energyOf('heating', { supply: PRODUCED_HEAT, efficiency: 0.94 });
export const PUMPED_COOLING = energyOf('cooling', { supply: ELECTRICITY, efficiency: 14 });

/** Datasheets that still state what a kilowatt-hour once cost, and no supply. */
export const STEAM_AT_ONE_PRICE = undatedEnergyOf('heating', {
  price: 0.062,
  efficiency: 0.88,
  carbon: 0.202,
});
export const TOWER_AT_ONE_PRICE = undatedEnergyOf('cooling', { price: 0.145, efficiency: 12, carbon: 0.13 });
export const COOLING_AT_ONE_PRICE = undatedEnergyOf('cooling', { price: 0.11, efficiency: 14, carbon: 0.06 });

export const PLATES_OPENED = cleaningOf(
  'open, brush plates, check gaskets',
  { cost: 2600, hours: 10, crewHours: 20 },
  { isolation: care.PLATES_ISOLATED, compatibility: care.PRODUCT_GASKETS },
);
export const PLATES_BRUSHED = cleaningOf(
  'open, pressure-wash plates',
  { cost: 3800, hours: 14, crewHours: 28 },
  { isolation: care.PLATES_ISOLATED, compatibility: care.PLAIN_PLATES },
);
export const SEA_PLATES_BRUSHED = { ...PLATES_BRUSHED, compatibility: care.TITANIUM_PLATES };
export const ACID_AND_CAUSTIC = cleaningOf(
  'circulate caustic, then acid',
  { cost: 900, hours: 5, crewHours: 6 },
  { isolation: care.STEAM_ISOLATED, compatibility: care.PRODUCT_TUBES },
);
export const DESCALED = cleaningOf(
  'descale with inhibited acid',
  { cost: 1400, hours: 8, crewHours: 12 },
  { isolation: care.CIRCUIT_ISOLATED, compatibility: care.INHIBITED_ACID },
);
export const DESCALED_IN_PLACE = cleaningOf(
  'descale in place',
  { cost: 1100, hours: 6, crewHours: 8 },
  { isolation: care.CIRCUIT_ISOLATED, compatibility: care.INHIBITED_ACID },
);
export const TUBES_BRUSHED = cleaningOf(
  'brush tubes',
  { cost: 1800, hours: 8, crewHours: 16 },
  { isolation: care.TUBES_ISOLATED, compatibility: care.COPPER_TUBES },
);
export const TUBES_JETTED = cleaningOf(
  'pull channel, jet tubes',
  { cost: 5200, hours: 24, crewHours: 64 },
  { isolation: care.TUBES_ISOLATED, compatibility: care.COPPER_TUBES },
);
export const STEAM_TUBES_JETTED = {
  ...TUBES_JETTED,
  isolation: care.STEAM_ISOLATED,
  compatibility: care.STEEL_TUBES,
};
export const FINS_WASHED = cleaningOf(
  'wash fins with water',
  { cost: 700, hours: 4, crewHours: 8 },
  { isolation: care.FANS_ISOLATED, compatibility: care.ALUMINIUM_FINS },
);
export const SOOT_REMOVED = cleaningOf(
  'soot-blow and wash',
  { cost: 2300, hours: 12, crewHours: 24 },
  { isolation: care.FLUE_ISOLATED, compatibility: care.STEEL_IN_FLUE },
);
