import { ZERO_CELSIUS } from './physical-constants';

/** One Btu/(lb·°F) in J/(kg·K): both are defined through the International Table calorie. */
const BTU_PER_POUND_FAHRENHEIT = 4186.8;

/**
 * Specific heat of a liquid petroleum fraction, as the two coefficients of cp = a + b·t.
 *
 * @param relativeDensity        at 15.6/15.6 °C [-]
 * @param characterisationFactor Watson K, (1.8·Tb)^(1/3)/relative density with Tb in K [-]
 * @returns a [J/(kg·K)] and b [J/(kg·K²)], for t in °C
 * @range  0 to 200 °C, relative density 0.65 to 1.08, K 10 to 13; about 5 %
 * @source K. M. Watson, E. F. Nelson, Ind. Eng. Chem. 25 (1933) 880–887
 * @check  tests/published/fluids.test.ts
 */
export function oilSpecificHeat(
  relativeDensity: number,
  characterisationFactor: number,
): readonly [a: number, b: number] {
  const factor = BTU_PER_POUND_FAHRENHEIT * (0.055 * characterisationFactor + 0.35);
  const slope = 0.000815 - 0.000306 * relativeDensity;
  // t in °F is 32 + 1.8·t in °C.
  return [factor * (0.6811 - 0.308 * relativeDensity + 32 * slope), factor * 1.8 * slope];
}

/** Constants K₀ and K₁ of the thermal expansion at 15 °C, by class of product. */
const OIL_EXPANSION = {
  crude: [613.9723, 0],
  gasoline: [346.4228, 0.4388],
  'jet-kerosene': [594.5418, 0],
  'fuel-oil': [186.9696, 0.4862],
  lubricating: [0, 0.6278],
} as const;

export type OilClass = keyof typeof OIL_EXPANSION;

/**
 * Density of a liquid petroleum product: ρ₁₅·exp(−α·Δt·(1 + 0.8·α·Δt)), α = K₀/ρ₁₅² + K₁/ρ₁₅.
 *
 * @param oilClass    class of product, which sets the expansion
 * @param density15   density at 15 °C [kg/m³]
 * @param temperature [°C]
 * @returns density [kg/m³]
 * @range  −18 to 150 °C, density at 15 °C 610 to 1075 kg/m³
 * @source API MPMS chapter 11.1 / ASTM D1250, 1980, tables 54A to 54D (range of temperature of the 2004 edition)
 * @check  tests/published/fluids.test.ts
 */
export function oilDensity(oilClass: OilClass, density15: number, temperature: number): number {
  const [k0, k1] = OIL_EXPANSION[oilClass];
  const expansion = (k0 / density15 + k1) / density15;
  const change = expansion * (temperature - 15);
  return density15 * Math.exp(-change * (1 + 0.8 * change));
}

/**
 * Thermal conductivity of a liquid petroleum product.
 *
 * @param relativeDensity at 15.6/15.6 °C [-]
 * @param temperature     [°C]
 * @returns conductivity [W/(m·K)]
 * @range  0 to 200 °C; about 10 %
 * @source C. S. Cragoe, Thermal Properties of Petroleum Products, NBS Miscellaneous Publication 97, 1929
 * @check  tests/published/fluids.test.ts
 */
export function oilConductivity(relativeDensity: number, temperature: number): number {
  return (0.1172 * (1 - 0.00054 * temperature)) / relativeDensity;
}

/**
 * Kinematic viscosity of an oil from two known points: log log (ν + 0.7) is linear in log T.
 *
 * @param points      two temperatures [°C] and the kinematic viscosities there [m²/s]
 * @returns kinematic viscosity [m²/s] as a function of temperature [°C]
 * @range  viscosities of 2 mm²/s and more; between the two points also below
 * @source ASTM D341, eq. of Walther with the constant 0.7
 * @check  tests/published/fluids.test.ts
 */
export function oilKinematicViscosity(points: {
  temperatures: readonly [number, number];
  kinematicViscosities: readonly [number, number];
}): (temperature: number) => number {
  const x = points.temperatures.map((t) => Math.log10(t + ZERO_CELSIUS));
  const y = points.kinematicViscosities.map((nu) => Math.log10(Math.log10(nu * 1e6 + 0.7)));
  const slope = (y[1]! - y[0]!) / (x[1]! - x[0]!);
  return (temperature) => {
    const w = y[0]! + slope * (Math.log10(temperature + ZERO_CELSIUS) - x[0]!);
    return 1e-6 * (10 ** (10 ** w) - 0.7);
  };
}
