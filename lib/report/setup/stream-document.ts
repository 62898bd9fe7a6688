import type { DraftReader } from './draft-reader';
import {
  type FluidName,
  type PolynomialDraft,
  PROPERTY_KINDS,
  type PropertiesDraft,
  type Side,
  type StreamDraft,
} from './unit-draft';

/** Fields of a stream that a fluid asks for. */
export type StreamField =
  | 'concentration'
  | 'pressure'
  | 'density'
  | 'characterisationFactor'
  | 'viscosities'
  | 'properties';

const STREAM_FIELDS: Record<FluidName, readonly StreamField[]> = {
  water: ['pressure'],
  steam: ['pressure'],
  seawater: ['concentration'],
  'ethylene-glycol': ['concentration'],
  'propylene-glycol': ['concentration'],
  oil: ['density', 'characterisationFactor', 'viscosities'],
  air: ['pressure'],
  custom: ['properties'],
};

/** Whether the form shows a field for a fluid; what is not shown is not sent. */
export function streamAsks(fluid: FluidName, field: StreamField): boolean {
  return STREAM_FIELDS[fluid].includes(field);
}

/** Whether the fluid cannot do without it. */
export function streamNeeds(fluid: FluidName, field: StreamField): boolean {
  if (field === 'concentration') return fluid.endsWith('glycol');
  return field === 'density' || field === 'properties';
}

export function streamDocument(read: DraftReader, side: Side, typed: StreamDraft) {
  const { fluid } = typed;
  const field = (name: StreamField) => `unit.${side}.${name}`;
  const asks = (name: StreamField) => streamAsks(fluid, name);
  const needs = (name: StreamField) => streamNeeds(fluid, name);
  return {
    fluid,
    name: read.text(`unit.${side}.name`, typed.name),
    concentration: asks('concentration')
      ? read.percent(field('concentration'), typed.concentration, needs('concentration'))
      : undefined,
    pressure: asks('pressure') ? read.positive(field('pressure'), typed.pressure) : undefined,
    density: asks('density') ? read.positive(field('density'), typed.density, true) : undefined,
    characterisationFactor: asks('characterisationFactor')
      ? read.number(field('characterisationFactor'), typed.characterisationFactor)
      : undefined,
    viscosities: asks('viscosities')
      ? viscositiesDocument(read, field('viscosities'), typed.viscosities)
      : undefined,
    properties: asks('properties')
      ? propertiesDocument(read, field('properties'), typed.properties)
      : undefined,
  };
}

/** Both viscosities with their temperatures, or none: one alone says nothing of how it falls. */
function viscositiesDocument(read: DraftReader, field: string, typed: StreamDraft['viscosities']) {
  const isStated = typed.some(({ temperature, value }) => `${temperature.value}${value.value}`.trim() !== '');
  if (!isStated) return undefined;
  return typed.map(({ temperature, value }, i) => ({
    temperature: read.quantity(`${field}[${i}].temperature`, temperature, true),
    value: read.positive(`${field}[${i}].value`, value, true),
  }));
}

function propertiesDocument(read: DraftReader, field: string, typed: PropertiesDraft) {
  return {
    ...statedProperties(read, field, typed),
    latentHeat: read.positive(`${field}.latentHeat`, typed.latentHeat),
    saturationTemperature: read.quantity(`${field}.saturationTemperature`, typed.saturationTemperature),
  };
}

function statedProperties(read: DraftReader, field: string, typed: PropertiesDraft) {
  if (typed.by === 'polynomial') {
    return { polynomial: polynomialDocument(read, `${field}.polynomial`, typed.polynomial) };
  }
  if (typed.by === 'constants') {
    const constants = PROPERTY_KINDS.map((kind) => [
      kind,
      read.positive(`${field}.${kind}`, typed[kind], kind === 'specificHeat'),
    ]);
    return Object.fromEntries(constants) as Record<string, unknown>;
  }
  const table = typed.table.map((row, i) => {
    const at = `${field}.table[${i}]`;
    const properties = PROPERTY_KINDS.map((kind) => [
      kind,
      read.positive(`${at}.${kind}`, { value: row[kind], unit: typed.units[kind] }, kind === 'specificHeat'),
    ]);
    const temperature = { value: row.temperature, unit: typed.units.temperature };
    return {
      temperature: read.quantity(`${at}.temperature`, temperature, true),
      ...Object.fromEntries(properties),
    };
  });
  return { table };
}

function polynomialDocument(read: DraftReader, field: string, typed: PolynomialDraft) {
  const from = read.quantity(`${field}.from`, typed.from, true);
  const to = read.quantity(`${field}.to`, typed.to, true);
  const properties = PROPERTY_KINDS.map((kind) => {
    const { value, unit } = typed[kind];
    const coefficients = read.numbers(`${field}.${kind}.coefficients`, value, kind === 'specificHeat');
    return [kind, coefficients === undefined ? undefined : { coefficients, unit }];
  });
  return { from, to, ...Object.fromEntries(properties) };
}
