import type { Fluid, FluidSpec, OilViscosity, Property } from './fluid';
import {
  type OilClass,
  oilConductivity,
  oilDensity,
  oilKinematicViscosity,
  oilSpecificHeat,
} from './oil-properties';
import { polynomial, polynomialIntegral } from './polynomial';
import { requireWithin, within } from './range';

/** Density of water at 15 °C [kg/m³] (IAPWS-95): turns a density at 15 °C into the relative density of the correlations. */
const WATER_DENSITY_15 = 999.1;

/** Ranges of the correlations: see `oil-properties`. */
const MINIMUM = 0;
const MAXIMUM = 200;
const DENSITY_MAXIMUM = 150;
const DENSITY_LIMITS = [653, 1075] as const;
const FACTOR_LIMITS = [10, 13] as const;
const TEMPERATURE_LIMITS = [MINIMUM, MAXIMUM] as const;

/** ASTM D341's plain form holds from here on [m²/s]; the greatest viscosity is what no exchanger would pump. */
const LEAST_VISCOSITY = 2e-6;
const GREATEST_VISCOSITY = 1;

/** Densities at 15 °C [kg/m³] where table 54B of ASTM D1250 passes from one class to the next. */
const KEROSENE_FROM = 779;
const FUEL_OIL_FROM = 838.5;

/**
 * A light oil as a stream, from its density and characterisation factor.
 *
 * @param spec density at 15 °C [kg/m³], characterisation factor [-], two kinematic viscosities [m²/s] or null
 * @returns the fluid; enthalpy [J/kg] above 0 °C; without two viscosities its viscosity is not stated
 * @range  0 to 200 °C, density and viscosity to 150 °C (NaN above), viscosity where it is above 2 mm²/s or between the
 *         two stated points; RangeError for density outside 653 to 1075 kg/m³ or K outside 10 to 13
 * @source as of each property in `oil-properties`
 * @check  tests/published/fluids.test.ts
 */
export function makeOil(spec: Omit<Extract<FluidSpec, { kind: 'oil' }>, 'kind'>): Fluid {
  const { density: density15, characterisationFactor, viscosity } = spec;
  requireWithin('oil', { parameter: 'density at 15 °C', value: density15, unit: 'kg/m³' }, DENSITY_LIMITS);
  const stated = { parameter: 'characterisation factor', value: characterisationFactor, unit: '' };
  requireWithin('oil', stated, FACTOR_LIMITS);
  const relativeDensity = density15 / WATER_DENSITY_15;
  const heat = oilSpecificHeat(relativeDensity, characterisationFactor);
  const limited = within(MINIMUM, MAXIMUM);
  const density = oilDensityOf(density15);
  return {
    name: `oil of ${Number(density15.toPrecision(4))} kg/m³`,
    minimum: MINIMUM,
    maximum: MAXIMUM,
    specificHeat: limited((t) => polynomial(heat, t)),
    enthalpy: limited((t) => polynomialIntegral(heat, t)),
    density,
    viscosity: viscosity === null ? null : dynamicViscosity(viscosity, density),
    conductivity: limited((t) => oilConductivity(relativeDensity, t)),
    phaseChange: null,
  };
}

/**
 * Density of an oil over temperature, expanding as the class of product that its density points to.
 *
 * @param density15 density at 15 °C [kg/m³]
 * @returns density [kg/m³] as a function of temperature [°C]
 * @range  0 to 150 °C, NaN outside; 653 to 1075 kg/m³ at 15 °C, which the caller keeps to
 * @source as of `oilDensity`; classes by table 54B of ASTM D1250
 * @check  tests/core/fluids/make-fluid.test.ts
 */
export function oilDensityOf(density15: number): Property {
  const oilClass = classOf(density15);
  return within(MINIMUM, DENSITY_MAXIMUM)((t) => oilDensity(oilClass, density15, t));
}

/** A crude of 850 kg/m³ taken as the class of its density is 0.2 % too dense at 90 °C. */
function classOf(density15: number): OilClass {
  if (density15 < KEROSENE_FROM) return 'gasoline';
  return density15 < FUEL_OIL_FROM ? 'jet-kerosene' : 'fuel-oil';
}

function dynamicViscosity(points: OilViscosity, density: Property): Property {
  requirePoints(points);
  const kinematic = oilKinematicViscosity(points);
  const first = Math.min(...points.temperatures);
  const last = Math.max(...points.temperatures);
  return (temperature) => {
    const nu = kinematic(temperature);
    const known = nu >= LEAST_VISCOSITY || (temperature >= first && temperature <= last);
    return known ? nu * density(temperature) : Number.NaN;
  };
}

function requirePoints({ temperatures, kinematicViscosities }: OilViscosity): void {
  const [first, last] = temperatures;
  if (first === last)
    throw new RangeError(`oil: both viscosities are stated at ${first} °C; state two temperatures`);
  for (const value of temperatures) {
    requireWithin(
      'oil',
      { parameter: 'temperature of the viscosity', value, unit: '°C' },
      TEMPERATURE_LIMITS,
    );
  }
  for (const value of kinematicViscosities) {
    const limits = [LEAST_VISCOSITY / 10, GREATEST_VISCOSITY] as const;
    requireWithin('oil', { parameter: 'kinematic viscosity', value, unit: 'm²/s' }, limits);
  }
  if ((last - first) * (kinematicViscosities[1] - kinematicViscosities[0]) >= 0) {
    throw new RangeError('oil: the kinematic viscosity must fall as the temperature rises');
  }
}
