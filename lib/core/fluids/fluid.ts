/** What a stream carries, as plain data in SI units: this is what is stored and sent between processes. */
export type FluidSpec =
  | { kind: 'water'; pressure: number | null }
  | { kind: 'steam'; pressure: number | null }
  | { kind: 'seawater'; salinity: number }
  | { kind: 'ethylene-glycol'; massFraction: number }
  | { kind: 'propylene-glycol'; massFraction: number }
  | { kind: 'oil'; density: number; characterisationFactor: number; viscosity: OilViscosity | null }
  | { kind: 'air'; pressure: number | null }
  | { kind: 'custom'; name: string; properties: CustomProperties; vaporisation?: Vaporisation | null }
  | {
      kind: 'polynomial';
      name: string;
      properties: PolynomialProperties;
      vaporisation?: Vaporisation | null;
    };

/** Two kinematic viscosities of an oil, from which ASTM D341 interpolates. Temperatures [°C], viscosities [m²/s]. */
export type OilViscosity = { temperatures: [number, number]; kinematicViscosities: [number, number] };

/**
 * A fluid the user describes: every array is the property at the temperatures of `temperatures` [°C, ascending];
 * one temperature means a constant. Only the specific heat is required; `null` is "not stated".
 */
export type CustomProperties = {
  temperatures: number[];
  /** J/(kg·K) */
  specificHeat: number[];
  /** kg/m³ */
  density: number[] | null;
  /** Pa·s */
  viscosity: number[] | null;
  /** W/(m·K) */
  conductivity: number[] | null;
};

/**
 * A fluid the user describes by polynomials: every property is c₀ + c₁·t + c₂·t² + …, t in °C, from `minimum` to
 * `maximum` [°C], in the units of `CustomProperties`; c₀ stands first. Only the specific heat is required.
 */
export type PolynomialProperties = {
  minimum: number;
  maximum: number;
  specificHeat: number[];
  density: number[] | null;
  viscosity: number[] | null;
  conductivity: number[] | null;
};

/** How a fluid the user describes boils and condenses; its properties are then those of the liquid. */
export type Vaporisation = {
  /** J/kg */
  latentHeat: number;
  /** °C; null where it is read from the inlet temperature sensor. */
  saturationTemperature: number | null;
};

/** A property as a function of temperature [°C]; NaN outside the fluid's range, never an extrapolation. */
export type Property = (temperature: number) => number;

/**
 * Writes several properties at the temperature `temperatures[at]` [°C] to `out`, from `to` on; NaN as `Property`. For loops
 * over readings: numbers that pass through arrays need no memory of their own on the way in and out of a function.
 */
export type PropertiesInto = (temperatures: Float64Array, at: number, out: Float64Array, to: number) => void;

/** Properties of a single-phase stream, ready to evaluate in a loop. `null` means "not stated for this fluid". */
export type Fluid = {
  name: string;
  /** Range of validity of specific heat and enthalpy [°C]; another property may end sooner and is NaN from there. */
  minimum: number;
  maximum: number;
  /** J/(kg·K) */
  specificHeat: Property;
  /** J/kg above the fluid's own zero: only differences mean anything. */
  enthalpy: Property;
  /** kg/m³ */
  density: Property | null;
  /** Pa·s */
  viscosity: Property | null;
  /** W/(m·K) */
  conductivity: Property | null;
  /**
   * A stream at saturation: vapour that condenses on the hot side, liquid that evaporates on the cold side; null for a
   * single-phase stream. With it, `enthalpy` is the liquid's (saturated or subcooled).
   */
  phaseChange: PhaseChange | null;
  /** Enthalpy and specific heat at once, the very figures of those two; absent where it is no faster. */
  heatInto?: PropertiesInto;
  /** Conductivity, specific heat and viscosity at once, likewise; absent too where one is not stated. */
  filmInto?: PropertiesInto;
  /** What to state so that the fluid covers a temperature outside its range; absent or null where nothing helps. */
  advice?: (temperature: number) => string | null;
};

export type PhaseChange = {
  /** Saturation temperature at the stated pressure [°C]; null when it is read from the inlet temperature sensor. */
  saturationTemperature: number | null;
  /** Enthalpy of saturated vapour at a saturation temperature [J/kg], same zero as `Fluid.enthalpy`. */
  vapourEnthalpy: Property;
  /** Enthalpy of saturated liquid at a saturation temperature [J/kg]. */
  liquidEnthalpy: Property;
};
