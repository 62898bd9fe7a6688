import type { Fault } from '@/lib/contract/app-error';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import { checksDocument } from './checks-draft';
import { cleaningDocument } from './cleaning-draft';
import { cleanTestDocument, validFromDocument } from './dated-document';
import { DraftReader, orNothing } from './draft-reader';
import { energyDocument, pumpingDocument } from './energy-draft';
import { asksTubeSide } from './following-choices';
import { streamDocument } from './stream-document';
import type { LimitDraft, UnitDraft } from './unit-draft';

/** What is sent to be checked or saved. It may be incomplete: the server says what is missing, beside `faults`. */
export type DraftDocument = { document: { site: unknown; unit: unknown }; faults: Fault[] };

/** The form as a document of the contract, and what in it cannot be read; field names are those of the document. */
export function draftDocument(draft: UnitDraft): DraftDocument {
  const read = new DraftReader();
  // In the order of the form, which is the order a person mends them in.
  const tag = read.text('unit.tag', draft.tag, true);
  const site = {
    name: read.text('site.name', draft.site.name, true),
    timeZone: read.text('site.timeZone', draft.site.timeZone, true),
    currency: read.text('site.currency', draft.site.currency.toUpperCase(), true),
  };
  const unit = {
    tag,
    service: read.text('unit.service', draft.service),
    construction: chosen(draft.construction),
    arrangement: arrangement(read, draft),
    tubeSide: asksTubeSide(draft) ? chosen(draft.tubeSide) : undefined,
    nozzles: nozzles(read, draft),
    ...area(read, draft),
    hot: streamDocument(read, 'hot', draft.hot),
    cold: streamDocument(read, 'cold', draft.cold),
    design: design(read, draft),
    films: films(read, draft),
    pressureDrop: pressureDrop(read, draft),
    clean: draft.clean === 'datasheet' ? undefined : draft.clean,
    cleanTest: cleanTestDocument(read, draft),
    validFrom: validFromDocument(read, draft),
    limits: draft.limits.map((limit, i) => limitDocument(read, limit, `unit.limits[${i}]`)),
    sensors: orNothing(
      Object.fromEntries(SENSORS.map((sensor) => [sensor, sensorDocument(read, draft, sensor)])),
    ),
    checks: checksDocument(read, draft.checks),
    energy: energyDocument(read, draft.energy),
    pumping: pumpingDocument(read, draft.pumping),
    cleaning: cleaningDocument(read, draft.cleaning),
  };
  if (draft.limits.length === 0)
    read.fault('unit.limits', 'state at least one limit: it is what the clean-by day is judged by');
  return { document: { site, unit }, faults: read.faults };
}

function chosen<T extends string>(value: T | ''): T | undefined {
  return value === '' ? undefined : value;
}

function arrangement(read: DraftReader, { arrangement: typed }: UnitDraft) {
  const passes = (name: 'shellPasses' | 'tubePasses' | 'hotPasses' | 'coldPasses') =>
    read.number(`unit.arrangement.${name}`, typed[name]);
  switch (typed.kind) {
    case 'shell-and-tube':
      return { kind: typed.kind, shellPasses: passes('shellPasses'), tubePasses: passes('tubePasses') };
    case 'crossflow':
      return { kind: typed.kind, mixed: typed.mixed };
    case 'plate':
      return { kind: typed.kind, hotPasses: passes('hotPasses'), coldPasses: passes('coldPasses') };
    default:
      return { kind: typed.kind };
  }
}

function nozzles(read: DraftReader, { nozzles: { hotIn, coldIn } }: UnitDraft) {
  if (hotIn === '' && coldIn === '') return undefined;
  const both = 'state both inlets, or neither';
  if (hotIn === '') return read.fault('unit.nozzles.hotIn', both);
  if (coldIn === '') return read.fault('unit.nozzles.coldIn', both);
  return { hotIn, coldIn };
}

function area(read: DraftReader, draft: UnitDraft) {
  if (draft.areaBy === 'area') return { area: read.positive('unit.area', draft.area, true) };
  const count = read.number('unit.plates.count', draft.plates.count, true);
  const areaEach = read.positive('unit.plates.areaEach', draft.plates.areaEach, true);
  const channelGap = read.positive('unit.plates.channelGap', draft.plates.channelGap);
  const channelWidth = read.positive('unit.plates.channelWidth', draft.plates.channelWidth);
  return { plates: { count, areaEach, channelGap, channelWidth } };
}

function design(read: DraftReader, { design: typed }: UnitDraft) {
  const temperature = (name: 'hotIn' | 'hotOut' | 'coldIn' | 'coldOut') =>
    read.quantity(`unit.design.${name}`, typed[name], true);
  return {
    hotIn: temperature('hotIn'),
    hotOut: temperature('hotOut'),
    coldIn: temperature('coldIn'),
    coldOut: temperature('coldOut'),
    hotFlow: read.positive('unit.design.hotFlow', typed.hotFlow, true),
    coldFlow: read.positive('unit.design.coldFlow', typed.coldFlow, true),
    cleanU: read.positive('unit.design.cleanU', typed.cleanU),
  };
}

function films(read: DraftReader, { films: typed }: UnitDraft) {
  return orNothing({
    hotShare: read.percent('unit.films.hotShare', typed.hotShare),
    wallShare: read.percent('unit.films.wallShare', typed.wallShare),
    hotExponent: read.number('unit.films.hotExponent', typed.hotExponent),
    coldExponent: read.number('unit.films.coldExponent', typed.coldExponent),
  });
}

function pressureDrop(read: DraftReader, { pressureDrop: typed }: UnitDraft) {
  return orNothing({
    hotExponent: read.number('unit.pressureDrop.hotExponent', typed.hotExponent),
    coldExponent: read.number('unit.pressureDrop.coldExponent', typed.coldExponent),
  });
}

function limitDocument(read: DraftReader, limit: LimitDraft, field: string) {
  const { kind, stream, direction } = limit;
  switch (kind) {
    case 'fouling-resistance':
      return { kind, value: read.positive(field, limit, true) };
    case 'cleanliness':
      return { kind, below: read.percent(field, limit.value, true) };
    case 'pressure-drop':
      return { kind, stream, above: read.positive(field, limit, true) };
    case 'outlet-temperature':
      return { kind, stream, [direction]: read.quantity(field, limit, true) };
  }
}

function sensorDocument(read: DraftReader, { sensors }: UnitDraft, sensor: Sensor) {
  const typed = sensors[sensor];
  const field = `unit.sensors.${sensor}.uncertainty`;
  const uncertainty = typed.unit === '%' ? read.percent(field, typed.value) : read.positive(field, typed);
  const systematicShare = read.percent(`unit.sensors.${sensor}.systematicShare`, typed.systematicShare);
  if (!sensor.endsWith('Flow')) return orNothing({ uncertainty, systematicShare });
  const nominal = read.positive(`unit.sensors.${sensor}.nominal`, typed.nominal);
  return orNothing({ uncertainty, systematicShare, at: chosen(typed.at), nominal });
}
