import type { Unit } from '@/lib/contract/fleet-file';
import type { Quantity } from '@/lib/contract/quantity';
import { ucumInWords } from '@/lib/report/format/ucum-words';

type Stream = Unit['hot'];
type Properties = NonNullable<Stream['properties']>;

const UNCORRECTED = 'the clean film is corrected for flow, not for temperature';

/** What a stream's statement means for its film and its heat; null where there is nothing to say. */
export function streamNote(stream: Stream): string | null {
  const notes = [oilNote(stream), ...(stream.properties === undefined ? [] : customNotes(stream.properties))];
  const said = notes.filter((note) => note !== null);
  return said.length === 0 ? null : said.join(' ');
}

function oilNote({ fluid, viscosities }: Stream): string | null {
  if (fluid !== 'oil') return null;
  if (viscosities === undefined) return `Viscosity not stated: ${UNCORRECTED}.`;
  const points = viscosities.map(({ value, temperature }) => `${inWords(value)} at ${inWords(temperature)}`);
  return `Viscosity ${points.join(' and ')}, by ASTM D341 between and beyond.`;
}

function customNotes(properties: Properties): (string | null)[] {
  const { latentHeat, saturationTemperature } = properties;
  const at = saturationTemperature === undefined ? 'the inlet temperature' : inWords(saturationTemperature);
  return [
    rangeNote(properties),
    latentHeat === undefined && !hasFilmProperties(properties)
      ? `Viscosity and conductivity not both stated: ${UNCORRECTED}.`
      : null,
    latentHeat === undefined ? null : `Latent heat ${inWords(latentHeat)}, at ${at}.`,
  ];
}

function rangeNote(properties: Properties): string | null {
  if (!('polynomial' in properties)) return null;
  const { from, to } = properties.polynomial;
  return `By polynomials from ${inWords(from)} to ${inWords(to)}.`;
}

function hasFilmProperties(properties: Properties): boolean {
  if ('polynomial' in properties) return isBoth(properties.polynomial);
  return 'table' in properties ? properties.table.every(isBoth) : isBoth(properties);
}

function isBoth(stated: { viscosity?: unknown; conductivity?: unknown }): boolean {
  return stated.viscosity !== undefined && stated.conductivity !== undefined;
}

function inWords({ value, unit }: Quantity): string {
  return `${value} ${ucumInWords(unit)}`;
}
