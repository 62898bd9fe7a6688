import { cleaningOf, energyOf, q, sensorsOf } from './quantities';

// Standard uncertainties, prices and cleaning terms that several units of the two sites share.

/** Matched resistance thermometers and magnetic meters, calibrated twice a year. */
export const PRODUCT_SENSORS = sensorsOf(q(0.1, 'K'), 0.01, 0.01);
export const PLANT_SENSORS = sensorsOf(q(0.2, 'K'), 0.015, 0.015);
export const US_SENSORS = sensorsOf(q(0.3, '[degF]'), 0.015, 0.015);
/** Approved heat meters at both ends. */
export const HEAT_METERS = sensorsOf(q(0.1, 'K'), 0.01, 0.01);
/** Air flow is known from the fan, not measured well. */
export const AIR_SENSORS = sensorsOf(q(0.3, 'K'), 0.015, 0.04);

export const STEAM_SAVED = energyOf('heating', { price: 0.062, efficiency: 0.88, carbon: 0.202 });
export const HEAT_RECOVERED = energyOf('recovery', { price: 0.062, efficiency: 0.88, carbon: 0.202 });
export const COLD_MADE = energyOf('cooling', { price: 0.145, efficiency: 3.6, carbon: 0.13 });
export const TOWER_COOLING = energyOf('cooling', { price: 0.145, efficiency: 12, carbon: 0.13 });
export const DISTRICT_HEAT = energyOf('heating', { price: 0.048, efficiency: 0.94, carbon: 0.11 });
export const PUMPED_COOLING = energyOf('cooling', { price: 0.11, efficiency: 14, carbon: 0.06 });

export const PLATES_OPENED = cleaningOf('open, brush plates, check gaskets', {
  cost: 2600,
  hours: 10,
  crewHours: 20,
});
export const PLATES_BRUSHED = cleaningOf('open, pressure-wash plates', {
  cost: 3800,
  hours: 14,
  crewHours: 28,
});
export const ACID_AND_CAUSTIC = cleaningOf('circulate caustic, then acid', {
  cost: 900,
  hours: 5,
  crewHours: 6,
});
export const DESCALED = cleaningOf('descale with inhibited acid', { cost: 1400, hours: 8, crewHours: 12 });
export const DESCALED_IN_PLACE = cleaningOf('descale in place', { cost: 1100, hours: 6, crewHours: 8 });
export const TUBES_BRUSHED = cleaningOf('brush tubes', { cost: 1800, hours: 8, crewHours: 16 });
export const TUBES_JETTED = cleaningOf('pull channel, jet tubes', { cost: 5200, hours: 24, crewHours: 64 });
export const FINS_WASHED = cleaningOf('wash fins with water', { cost: 700, hours: 4, crewHours: 8 });
export const SOOT_REMOVED = cleaningOf('soot-blow and wash', { cost: 2300, hours: 12, crewHours: 24 });
