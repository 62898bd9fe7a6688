import type { CustomProperties, FluidSpec } from '@/lib/core/fluids/fluid';
import { AppError } from './app-error';
import type { Unit } from './fleet-file';
import { inSi, type Quantity } from './quantity';
import type { Kind } from './ucum';

type Stream = Unit['hot'];
type Properties = NonNullable<Stream['properties']>;

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
      return {
        kind: 'oil',
        density: inSi(need(stream.density, `${field}.density`, 'the density at 15 °C'), 'density'),
        characterisationFactor: stream.characterisationFactor ?? MIXED_BASE_FACTOR,
        viscosity: null,
      };
    case 'custom':
      return {
        kind: 'custom',
        name: stream.name ?? 'custom fluid',
        properties: customProperties(
          need(stream.properties, `${field}.properties`, 'at least a specific heat'),
        ),
      };
  }
}

function need<T>(value: T | undefined, field: string, what: string): T {
  if (value === undefined) {
    throw new AppError('invalid-input', `${field} is missing`, [
      { field, message: `is required: state ${what}` },
    ]);
  }
  return value;
}

function customProperties(properties: Properties): CustomProperties {
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
