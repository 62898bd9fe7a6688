import type { Unit } from '@/lib/contract/fleet-file';
import { q } from './quantities';

type Stream = Unit['hot'];

/** One row of a fluid's table: [°C], specific heat [kJ/(kg·K)], density [kg/m³], viscosity [mPa·s], conductivity [W/(m·K)]. */
type Row = [number, number, number, number, number];

function custom(name: string, rows: Row[]): Stream {
  const table = rows.map(([temperature, specificHeat, density, viscosity, conductivity]) => ({
    temperature: q(temperature, 'Cel'),
    specificHeat: q(specificHeat, 'kJ/(kg.K)'),
    density: q(density, 'kg/m3'),
    viscosity: q(viscosity, 'mPa.s'),
    conductivity: q(conductivity, 'W/(m.K)'),
  }));
  return { fluid: 'custom', name, properties: { table } };
}

/** Kinematic viscosities [mm²/s] at two temperatures [°C], as an oil's data sheet prints them. */
function viscosities(...points: [[number, number], [number, number]]): Stream['viscosities'] {
  const [first, second] = points.map(([temperature, value]) => ({
    temperature: q(temperature, 'Cel'),
    value: q(value, 'mm2/s'),
  }));
  return [first!, second!];
}

// Milk and cream: specific heat, density and conductivity by Choi & Okos 1986 for typical compositions. Whey and turbine
// oil, and all viscosities: typical values.
export const WHOLE_MILK = custom('whole milk', [
  [2, 3.881, 1025.3, 3.2, 0.538],
  [20, 3.885, 1023.1, 2.1, 0.564],
  [40, 3.892, 1018.3, 1.3, 0.59],
  [60, 3.903, 1010.7, 0.9, 0.61],
  [80, 3.918, 1000.3, 0.68, 0.626],
  [95, 3.93, 990.5, 0.57, 0.634],
]);
export const CREAM = custom('cream, 40 % fat', [
  [2, 3.172, 984.1, 38, 0.394],
  [20, 3.183, 979.8, 14, 0.408],
  [40, 3.196, 973.4, 7.5, 0.42],
  [60, 3.21, 965.5, 4.8, 0.43],
  [80, 3.225, 956.0, 3.3, 0.437],
  [95, 3.238, 948.0, 2.6, 0.441],
]);
export const WHEY = custom('sweet whey', [
  [2, 3.99, 1029.0, 2.1, 0.555],
  [20, 3.995, 1026.5, 1.35, 0.58],
  [40, 4.0, 1021.0, 0.9, 0.606],
  [60, 4.01, 1013.0, 0.66, 0.628],
  [80, 4.025, 1002.5, 0.51, 0.645],
  [95, 4.035, 993.0, 0.43, 0.653],
]);
export const TURBINE_OIL = custom('turbine oil, ISO VG 46', [
  [10, 1.83, 878, 230, 0.134],
  [30, 1.91, 865, 71, 0.133],
  [50, 1.99, 852, 27, 0.131],
  [70, 2.07, 839, 13.2, 0.13],
  [90, 2.16, 826, 7.4, 0.128],
]);

export const WATER: Stream = { fluid: 'water' };
export const PRESSURISED_WATER: Stream = { fluid: 'water', pressure: q(10, 'bar') };
export const SEA_WATER: Stream = { fluid: 'seawater', concentration: 0.035 };
export const BRACKISH_SEA_WATER: Stream = { fluid: 'seawater', concentration: 0.006 };
export const COLD_GLYCOL: Stream = { fluid: 'propylene-glycol', concentration: 0.3 };
export const BRINE: Stream = { fluid: 'ethylene-glycol', concentration: 0.4 };
export const JACKET_WATER: Stream = { ...BRINE };
export const DRY_COOLER_GLYCOL: Stream = { fluid: 'ethylene-glycol', concentration: 0.35 };
// Typical viscosities of an ISO VG 32 and an ISO VG 46 oil and of a fuel oil of 180 mm²/s at 50 °C.
export const COMPRESSOR_OIL: Stream = {
  fluid: 'oil',
  density: q(868, 'kg/m3'),
  characterisationFactor: 12.1,
  viscosities: viscosities([40, 32], [100, 5.4]),
};
export const LUBE_OIL: Stream = {
  fluid: 'oil',
  density: q(875, 'kg/m3'),
  characterisationFactor: 11.9,
  viscosities: viscosities([40, 46], [100, 6.8]),
};
export const HEAVY_FUEL_OIL: Stream = {
  fluid: 'oil',
  density: q(958, 'kg/m3'),
  characterisationFactor: 11.3,
  viscosities: viscosities([50, 180], [100, 25]),
};
export const AMBIENT_AIR: Stream = { fluid: 'air' };
/** Lean flue gas, near enough to air for its heat. */
export const FLUE_GAS: Stream = { fluid: 'air', name: 'flue gas, taken as air' };
export const CHARGE_AIR: Stream = { fluid: 'air', pressure: q(3.2, 'bar') };

/** Steam whose pressure follows the heat demand: it condenses at the temperature read at the inlet. */
export const BACK_PRESSURE_STEAM: Stream = { fluid: 'steam' };

/** Saturated steam at an absolute pressure: condenses on the hot side, is raised on the cold one. */
export function steamAt(value: number, unit: string): Stream {
  return { fluid: 'steam', pressure: q(value, unit) };
}
