import type { DraftReader } from './draft-reader';
import {
  type FluidName,
  PROPERTY_KINDS,
  type PropertiesDraft,
  type Side,
  type StreamDraft,
} from './unit-draft';

/** Fields of a stream that a fluid asks for. */
export type StreamField = 'concentration' | 'pressure' | 'density' | 'characterisationFactor' | 'properties';

const STREAM_FIELDS: Record<FluidName, readonly StreamField[]> = {
  water: ['pressure'],
  steam: ['pressure'],
  seawater: ['concentration'],
  'ethylene-glycol': ['concentration'],
  'propylene-glycol': ['concentration'],
  oil: ['density', 'characterisationFactor'],
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
    properties: asks('properties')
      ? propertiesDocument(read, field('properties'), typed.properties)
      : undefined,
  };
}

function propertiesDocument(read: DraftReader, field: string, typed: PropertiesDraft) {
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
