import type { Unit } from '@/lib/contract/fleet-file';
import { conversionToSi } from '@/lib/contract/ucum';
import { FLOW_SENSORS, PRESSURE_DROP_SENSORS, SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import { displayUnit } from '@/lib/report/format/display-unit';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { QuantityDraft } from '@/lib/report/setup/quantity-draft';
import { type SearchParams, unitPath } from '@/lib/report/unit/unit-address';

/** What a person typed on the spot-check page, as typed: it stands in the address, so that a link shows the same. */
export type SpotCheckEntries = Record<Sensor, QuantityDraft> & {
  /** Standard uncertainties of the hand instruments; blank: those of the datasheet's sensors. */
  temperatureUncertainty: QuantityDraft;
  flowUncertainty: QuantityDraft;
  /** Local time of the site, `2026-05-04T08:00`; blank: now. */
  at: string;
  by: string;
  note: string;
  /** The unit system asked for in the address, kept in every link; blank: the reader's own. */
  units: string;
};

export const INSTRUMENTS = ['temperatureUncertainty', 'flowUncertainty'] as const;
const TEXTS = ['at', 'by', 'note', 'units'] as const;

/** Reads the address; a unit of measure that it does not name is the reader's, or the datasheet's where that suits the reader. */
export function readSpotCheckAddress(params: SearchParams, unit: Unit, system: UnitSystem): SpotCheckEntries {
  const text = (name: string) => [params[name]].flat()[0] ?? '';
  const draft = (name: string, usual: string) => ({
    value: text(name),
    unit: text(unitName(name)) || usual,
  });
  return Object.fromEntries([
    ...SENSORS.map((sensor) => [sensor, draft(sensor, usualUnit(sensor, unit, system))]),
    [
      'temperatureUncertainty',
      draft('temperatureUncertainty', displayUnit('temperatureDifference', system).ucum),
    ],
    ['flowUncertainty', draft('flowUncertainty', '%')],
    ...TEXTS.map((name) => [name, text(name)]),
  ]) as SpotCheckEntries;
}

/** The name under which the address holds the unit of measure of a value. */
export function unitName(name: string): string {
  return `${name}Unit`;
}

/** The address of the page with these entries; blank ones are left out. */
export function spotCheckHref(tag: string, entries: SpotCheckEntries): string {
  const params = new URLSearchParams();
  for (const name of [...SENSORS, ...INSTRUMENTS]) {
    if (entries[name].value === '') continue;
    params.set(name, entries[name].value);
    params.set(unitName(name), entries[name].unit);
  }
  for (const name of TEXTS) if (entries[name] !== '') params.set(name, entries[name]);
  const query = params.toString();
  return `${spotCheckPath(tag)}${query === '' ? '' : `?${query}`}`;
}

/** The address of the page with nothing typed in. */
export function emptySpotCheckHref(tag: string, units: string | null): string {
  return `${spotCheckPath(tag)}${units === null ? '' : `?${new URLSearchParams({ units })}`}`;
}

export function spotCheckPath(tag: string): string {
  return `${unitPath(tag)}/spot-check`;
}

/** Whether no reading is typed in: then there is nothing to work out. */
export function isBlank(entries: SpotCheckEntries): boolean {
  return SENSORS.every((sensor) => entries[sensor].value.trim() === '');
}

/** A flow is asked for in the datasheet's unit of measure where that is one of the reader's system, else mass for mass. */
function usualUnit(sensor: Sensor, { design }: Unit, system: UnitSystem): string {
  if (PRESSURE_DROP_SENSORS.some((other) => other === sensor)) return displayUnit('pressure', system).ucum;
  const flow = FLOW_SENSORS.find((other) => other === sensor);
  if (flow === undefined) return displayUnit('temperature', system).ucum;
  const stated = design[flow].unit;
  if (isCustomary(stated) === (system === 'us')) return stated;
  return displayUnit(conversionToSi(stated, 'volumeFlow') === null ? 'massFlow' : 'volumeFlow', system).ucum;
}

/** UCUM writes US customary units in brackets. */
function isCustomary(unit: string): boolean {
  return unit.includes('[') || /^(gpm|gal|lb|klb|ft3)/.test(unit);
}
