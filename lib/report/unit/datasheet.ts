import type { Unit } from '@/lib/contract/fleet-file';
import type { Quantity } from '@/lib/contract/quantity';
import { conversionToSi } from '@/lib/contract/ucum';
import { buoyancyAdvice } from '@/lib/core/exchange/direction';
import { plateChannels } from '@/lib/core/exchange/plate-area';
import { formatNumber } from '@/lib/report/format/figure';
import { ucumInWords } from '@/lib/report/format/ucum-words';
import type { UnitRecord } from '@/lib/report/records';
import { datasheetLimits } from './datasheet-limits';
import { bothSystems, type DatasheetRow, quantityRow, wordsRow } from './datasheet-row';
import { datasheetSensors } from './datasheet-sensors';

export type DatasheetGroup = { title: string; rows: DatasheetRow[] };

export type Datasheet = { groups: DatasheetGroup[]; advice: string[]; version: number; versionSince: number };

/** The installed unit as its datasheet states it, with what follows from that and what was assumed. */
export function datasheet(record: UnitRecord): Datasheet {
  const { unit } = record;
  return {
    groups: [
      { title: 'Area', rows: areaRows(record) },
      { title: 'Clean duty point', rows: designRows(record) },
      { title: 'Clean films', rows: filmRows(record) },
      { title: 'Limits', rows: datasheetLimits(record) },
      { title: 'Standard uncertainty of the sensors', rows: datasheetSensors(record) },
    ],
    advice: adviceOf(unit),
    version: record.version,
    versionSince: record.versionSince,
  };
}

function areaRows({ unit, exchanger }: UnitRecord): DatasheetRow[] {
  if (unit.plates === undefined)
    return unit.area === undefined ? [] : [quantityRow('Heat-transfer area', unit.area, 'area')];
  const { count, areaEach } = unit.plates;
  return [
    wordsRow('Plates', `${count}`, `${plateChannels(count)} channels`),
    quantityRow('Area of one plate', areaEach, 'area'),
    {
      label: 'Effective area',
      given: `(${count} − 2) plates`,
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
    wordsRow('Hot fluid', fluidInWords(unit.hot)),
    wordsRow('Cold fluid', fluidInWords(unit.cold)),
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

function filmRows({ unit, exchanger }: UnitRecord): DatasheetRow[] {
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
    wordsRow(
      'Clean reference',
      exchanger.clean === 'learned' ? 'learned after a cleaning' : 'as on the datasheet',
      exchanger.clean === 'learned'
        ? 'One factor on the whole clean resistance, from accepted readings just after a cleaning.'
        : null,
    ),
  ];
}

const ADVICE = {
  'heated-stream-falls':
    'The cold stream enters at the top. A stream being heated should rise, so that buoyancy helps its pump.',
  'cooled-stream-rises':
    'The hot stream enters at the bottom. A stream being cooled should fall, so that buoyancy helps its pump.',
} as const;

function adviceOf(unit: Unit): string[] {
  return unit.nozzles === undefined ? [] : buoyancyAdvice(unit.nozzles).map((code) => ADVICE[code]);
}

/** "water", "ethylene glycol 30 %", "whole milk". */
export function fluidInWords(stream: Unit['hot']): string {
  const name = stream.name ?? (stream.fluid === 'custom' ? 'own fluid' : stream.fluid.replace('-', ' '));
  return stream.concentration === undefined
    ? name
    : `${name}, ${formatNumber(stream.concentration * 100, 1)} %`;
}
