import type { Unit } from '@/lib/contract/fleet-file';
import type { Quantity } from '@/lib/contract/quantity';
import { conversionToSi } from '@/lib/contract/ucum';
import { buoyancyAdvice } from '@/lib/core/exchange/direction';
import { plateChannels } from '@/lib/core/exchange/plate-area';
import { formatNumber } from '@/lib/report/format/figure';
import { ucumInWords } from '@/lib/report/format/ucum-words';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { UnitRecord, UnitRecords } from '@/lib/report/records';
import { basisInWords } from '@/lib/report/reference/basis-words';
import { referencePath } from '@/lib/report/reference/reference-entries';
import { datasheetLimits } from './datasheet-limits';
import { bothSystems, type DatasheetRow, quantityRow, wordsRow } from './datasheet-row';
import { datasheetSensors } from './datasheet-sensors';
import { datasheetVersions, type VersionRow } from './datasheet-versions';
import { plateRows, slowChannelAdvice } from './plate-rows';
import { exponentInWords } from './pressure-exponent-words';
import { streamNote } from './stream-note';

export type DatasheetGroup = { title: string; rows: DatasheetRow[] };

export type Datasheet = {
  groups: DatasheetGroup[];
  advice: string[];
  version: number;
  versionSince: number;
  versions: VersionRow[];
  /** The page of the clean reference. */
  referenceHref: string;
};

/** The installed unit as its datasheet states it, with what follows from that and what was assumed. */
export function datasheet(records: UnitRecords, system: UnitSystem): Datasheet {
  const { record, daily } = records;
  const channels = plateRows(record, daily);
  const drops = pressureDropRows(records);
  return {
    groups: [
      { title: 'Area', rows: areaRows(record) },
      ...(channels.length === 0 ? [] : [{ title: 'Plate channels', rows: channels }]),
      { title: 'Clean duty point', rows: designRows(record) },
      { title: 'Clean films', rows: filmRows(records) },
      ...(drops.length === 0 ? [] : [{ title: 'Pressure drop', rows: drops }]),
      { title: 'Limits', rows: datasheetLimits(record) },
      { title: 'Standard uncertainty of the sensors', rows: datasheetSensors(record) },
    ],
    advice: [...buoyancyInWords(record.unit), ...slowChannelAdvice(record, daily, system)],
    version: record.version,
    versionSince: record.versionSince,
    versions: datasheetVersions(records),
    referenceHref: referencePath(record.tag),
  };
}

function areaRows({ unit, exchanger }: UnitRecord): DatasheetRow[] {
  if (unit.plates === undefined)
    return unit.area === undefined ? [] : [quantityRow('Heat-transfer area', unit.area, 'area')];
  const { count, areaEach } = unit.plates;
  return [
    wordsRow('Plates', `N = ${count}`, `N − 1 = ${plateChannels(count)} channels`),
    quantityRow('Area of one plate', areaEach, 'area'),
    {
      label: 'Effective area',
      given: `A = (${count} − 2) · a`,
      ...bothSystems(exchanger.area, 'area'),
      note: 'The first and the last plate are wetted on one side only and transfer nothing: they are not counted.',
    },
  ];
}

function designRows({ unit, exchanger }: UnitRecord): DatasheetRow[] {
  const { design } = unit;
  const temperatures = (
    [
      ['Hot inlet', design.hotIn],
      ['Hot outlet', design.hotOut],
      ['Cold inlet', design.coldIn],
      ['Cold outlet', design.coldOut],
    ] as const
  ).map(([label, given]) => quantityRow(label, given, 'temperature'));
  const cleanU =
    design.cleanU === undefined
      ? wordsRow('Clean U', 'not stated', 'It follows from the temperatures and flows above.')
      : quantityRow('Clean U', design.cleanU, 'conductance');
  return [
    wordsRow('Hot fluid', fluidInWords(unit.hot), streamNote(unit.hot)),
    wordsRow('Cold fluid', fluidInWords(unit.cold), streamNote(unit.cold)),
    ...temperatures,
    flowRow('Hot flow', design.hotFlow, exchanger.design.hotFlow),
    flowRow('Cold flow', design.coldFlow, exchanger.design.coldFlow),
    cleanU,
  ];
}

/** A volume flow stays what it is in "as given"; beside it stands the mass flow it makes at the design temperature. */
function flowRow(label: string, given: Quantity, massFlow: number): DatasheetRow {
  const isVolume = conversionToSi(given.unit, 'massFlow') === null;
  const note = isVolume ? 'Mass flow by the density at the meter’s design temperature.' : null;
  return {
    label,
    given: `${given.value} ${ucumInWords(given.unit)}`,
    ...bothSystems(massFlow, 'massFlow'),
    note,
  };
}

function filmRows({ record, bases, versions, references }: UnitRecords): DatasheetRow[] {
  const { unit, exchanger, site } = record;
  const [, reference] = basisInWords(bases.at(-1)!, { versions, references }, site.timeZone);
  const { films } = exchanger;
  const stated = unit.films ?? {};
  const percent = (share: number) => `${formatNumber(share * 100, 0)} %`;
  const assumed = (value: number | undefined) =>
    value === undefined ? 'Assumed: the datasheet does not say.' : null;
  const coldShare = Math.max(0, 1 - films.hotShare - films.wallShare);
  return [
    wordsRow('Share of the hot film', percent(films.hotShare), assumed(stated.hotShare)),
    wordsRow('Share of the wall', percent(films.wallShare), assumed(stated.wallShare)),
    wordsRow(
      'Share of the cold film',
      percent(coldShare),
      'The rest of the clean resistance at the duty point.',
    ),
    wordsRow('Exponent of the hot film on flow', `${films.hotExponent}`, assumed(stated.hotExponent)),
    wordsRow('Exponent of the cold film on flow', `${films.coldExponent}`, assumed(stated.coldExponent)),
    wordsRow('Clean reference', CLEAN_WORDS[unit.clean ?? 'datasheet'], sentence(`in force: ${reference}.`)),
  ];
}

/** The exponent of each side whose pressure drop is measured, where it comes from and what the readings say of it. */
function pressureDropRows({ record, daily, pressureExponents }: UnitRecords): DatasheetRow[] {
  const sides = (['hot', 'cold'] as const).filter((side) =>
    daily[`${side}PressureDrop`].some((value) => value > 0),
  );
  return sides.map((side) =>
    wordsRow(
      `Exponent of the ${side} pressure drop on flow`,
      `${record.exchanger.pressureDropExponents[side]}`,
      exponentInWords(record, side, pressureExponents[side]),
    ),
  );
}

const ADVICE = {
  'heated-stream-falls':
    'The cold stream enters at the top. A stream being heated should rise, so that buoyancy helps its pump.',
  'cooled-stream-rises':
    'The hot stream enters at the bottom. A stream being cooled should fall, so that buoyancy helps its pump.',
} as const;

function buoyancyInWords(unit: Unit): string[] {
  return unit.nozzles === undefined ? [] : buoyancyAdvice(unit.nozzles).map((code) => ADVICE[code]);
}

const CLEAN_WORDS: Record<UnitRecord['exchanger']['clean'], string> = {
  datasheet: 'as on the datasheet',
  test: 'from one clean test',
  learned: 'learned after a cleaning',
};

function sentence(text: string): string {
  return text.replace(/^./, (letter) => letter.toUpperCase());
}

/** "water", "ethylene glycol 30 %", "whole milk". */
export function fluidInWords(stream: Unit['hot']): string {
  const name = stream.name ?? (stream.fluid === 'custom' ? 'own fluid' : stream.fluid.replace('-', ' '));
  return stream.concentration === undefined
    ? name
    : `${name}, ${formatNumber(stream.concentration * 100, 1)} %`;
}
