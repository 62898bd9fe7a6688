import type {
  CustomProperties,
  FluidSpec,
  OilViscosity,
  PolynomialProperties,
  Vaporisation,
} from '@/lib/core/fluids/fluid';
import { oilDensityOf } from '@/lib/core/fluids/oil';
import { AppError } from './app-error';
import type { Unit } from './fleet-file';
import { inSi, type Quantity } from './quantity';
import { conversionToSi, type Kind } from './ucum';

type Stream = Unit['hot'];
type Viscosities = NonNullable<Stream['viscosities']>;
type Properties = NonNullable<Stream['properties']>;
type Polynomials = Extract<Properties, { polynomial: unknown }>['polynomial'];

/** Salinity of standard sea water (mass fraction), IAPWS R13-08. */
const STANDARD_SALINITY = 0.03516504;
/** Watson characterisation factor of a mixed-base oil, where none is stated (common practice). */
const MIXED_BASE_FACTOR = 11.8;

/**
 * The fluid of one side in SI, from what the datasheet states.
 *
 * @throws AppError naming the field that is missing
 */
export function fluidSpec(stream: Stream, field: string): FluidSpec {
  const pressure = stream.pressure === undefined ? null : inSi(stream.pressure, 'pressure');
  switch (stream.fluid) {
    case 'water':
    case 'steam':
    case 'air':
      return { kind: stream.fluid, pressure };
    case 'seawater':
      return { kind: 'seawater', salinity: stream.concentration ?? STANDARD_SALINITY };
    case 'ethylene-glycol':
    case 'propylene-glycol':
      return {
        kind: stream.fluid,
        massFraction: need(stream.concentration, `${field}.concentration`, 'a mass fraction'),
      };
    case 'oil':
      return oilSpec(stream, field);
    case 'custom':
      return customSpec(stream, field);
  }
}

function oilSpec(stream: Stream, field: string): FluidSpec {
  const density = inSi(need(stream.density, `${field}.density`, 'the density at 15 °C'), 'density');
  return {
    kind: 'oil',
    density,
    characterisationFactor: stream.characterisationFactor ?? MIXED_BASE_FACTOR,
    viscosity:
      stream.viscosities === undefined
        ? null
        : oilViscosity(stream.viscosities, density, `${field}.viscosities`),
  };
}

function oilViscosity(stated: Viscosities, density15: number, field: string): OilViscosity {
  const [first, last] = stated.map(({ temperature, value }, i) => {
    const at = inSi(temperature, 'temperature');
    return { at, viscosity: kinematicViscosity(value, oilDensityOf(density15)(at), `${field}[${i}]`) };
  }) as [{ at: number; viscosity: number }, { at: number; viscosity: number }];
  if (first.at === last.at)
    refuse(`${field}[1].temperature`, 'must differ from the first: state two temperatures');
  if ((last.at - first.at) * (last.viscosity - first.viscosity) >= 0) {
    const message = 'must be the lower one at the higher temperature: an oil gets thinner as it warms';
    refuse(`${field}[1].value`, message);
  }
  return {
    temperatures: [first.at, last.at],
    kinematicViscosities: [first.viscosity, last.viscosity],
  };
}

/** A dynamic viscosity becomes kinematic by the oil's own density at that temperature. */
function kinematicViscosity(stated: Quantity, density: number, field: string): number {
  if (conversionToSi(stated.unit, 'kinematicViscosity') !== null) return inSi(stated, 'kinematicViscosity');
  if (Number.isNaN(density)) {
    const message =
      'is outside 0 to 150 °C, where the density of the oil is known: state a kinematic viscosity';
    refuse(`${field}.temperature`, message);
  }
  return inSi(stated, 'viscosity') / density;
}

function customSpec(stream: Stream, field: string): FluidSpec {
  const properties = need(stream.properties, `${field}.properties`, 'at least a specific heat');
  const named = { name: stream.name ?? 'custom fluid', vaporisation: vaporisation(properties) };
  return 'polynomial' in properties
    ? { kind: 'polynomial', ...named, properties: polynomialProperties(properties.polynomial) }
    : { kind: 'custom', ...named, properties: customProperties(properties) };
}

function vaporisation({ latentHeat, saturationTemperature }: Properties): Vaporisation | null {
  if (latentHeat === undefined) return null;
  return {
    latentHeat: inSi(latentHeat, 'specificEnthalpy'),
    saturationTemperature:
      saturationTemperature === undefined ? null : inSi(saturationTemperature, 'temperature'),
  };
}

function polynomialProperties(stated: Polynomials): PolynomialProperties {
  const inSiUnits = ({ coefficients, unit }: Polynomials['specificHeat'], kind: Kind) =>
    coefficients.map((value) => inSi({ value, unit }, kind));
  const orNull = (given: Polynomials['density'], kind: Kind) =>
    given === undefined ? null : inSiUnits(given, kind);
  return {
    minimum: inSi(stated.from, 'temperature'),
    maximum: inSi(stated.to, 'temperature'),
    specificHeat: inSiUnits(stated.specificHeat, 'specificHeat'),
    density: orNull(stated.density, 'density'),
    viscosity: orNull(stated.viscosity, 'viscosity'),
    conductivity: orNull(stated.conductivity, 'conductivity'),
  };
}

function refuse(field: string, message: string): never {
  throw new AppError('invalid-input', `${field} ${message}`, [{ field, message }]);
}

function need<T>(value: T | undefined, field: string, what: string): T {
  if (value === undefined) {
    throw new AppError('invalid-input', `${field} is missing`, [
      { field, message: `is required: state ${what}` },
    ]);
  }
  return value;
}

function customProperties(properties: Exclude<Properties, { polynomial: unknown }>): CustomProperties {
  const rows =
    'table' in properties ? properties.table : [{ temperature: { value: 20, unit: 'Cel' }, ...properties }];
  const sorted = rows
    .map((row) => ({ row, temperature: inSi(row.temperature, 'temperature') }))
    .sort((a, b) => a.temperature - b.temperature);
  const column = (pick: (row: (typeof rows)[number]) => Quantity | undefined, kind: Kind) => {
    const values = sorted.map(({ row }) => pick(row));
    // A property stated in some rows only cannot be interpolated: it counts as not stated.
    return values.every((value) => value !== undefined) ? values.map((value) => inSi(value, kind)) : null;
  };
  return {
    temperatures: sorted.map(({ temperature }) => temperature),
    specificHeat: sorted.map(({ row }) => inSi(row.specificHeat, 'specificHeat')),
    density: column((row) => row.density, 'density'),
    viscosity: column((row) => row.viscosity, 'viscosity'),
    conductivity: column((row) => row.conductivity, 'conductivity'),
  };
}
