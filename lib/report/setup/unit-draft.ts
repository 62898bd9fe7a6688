import type { Site, Unit } from '@/lib/contract/fleet-file';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { type FormKind, firstUnit } from './unit-choices';

/** A unit as a form holds it: every number as typed, every unit of measure as chosen, '' for not stated. */
export type QuantityDraft = { value: string; unit: string };

export type FluidName = Unit['hot']['fluid'];
export type ArrangementKind = Unit['arrangement']['kind'];
export type Construction = NonNullable<Unit['construction']>;
export type LimitKind = Unit['limits'][number]['kind'];
export type Side = 'hot' | 'cold';

export const PROPERTY_KINDS = ['specificHeat', 'density', 'viscosity', 'conductivity'] as const;
export const TABLE_KINDS = ['temperature', ...PROPERTY_KINDS] as const;
export type TableKind = (typeof TABLE_KINDS)[number];

export type PropertiesDraft = Record<(typeof PROPERTY_KINDS)[number], QuantityDraft> & {
  by: 'constants' | 'table';
  units: Record<TableKind, string>;
  table: Record<TableKind, string>[];
};

export type StreamDraft = {
  fluid: FluidName;
  name: string;
  /** Percent by mass. */
  concentration: string;
  pressure: QuantityDraft;
  density: QuantityDraft;
  characterisationFactor: string;
  properties: PropertiesDraft;
};

/** One limit; `value` is a percentage for cleanliness. */
export type LimitDraft = {
  kind: LimitKind;
  stream: Side;
  direction: 'above' | 'below';
  value: string;
  unit: string;
};

/** Unit '%' means a share of the reading. */
export type SensorDraft = {
  value: string;
  unit: string;
  systematicShare: string;
  at: '' | 'inlet' | 'outlet';
};

export type UnitDraft = {
  site: Site & { isNew: boolean };
  tag: string;
  service: string;
  construction: '' | Construction;
  arrangement: {
    kind: ArrangementKind;
    shellPasses: string;
    tubePasses: string;
    mixed: NonNullable<Unit['arrangement']['mixed']>;
    hotPasses: string;
    coldPasses: string;
  };
  tubeSide: '' | Side;
  nozzles: { hotIn: '' | 'top' | 'bottom'; coldIn: '' | 'top' | 'bottom' };
  areaBy: 'area' | 'plates';
  area: QuantityDraft;
  plates: { count: string; areaEach: QuantityDraft };
  hot: StreamDraft;
  cold: StreamDraft;
  design: Record<
    'hotIn' | 'hotOut' | 'coldIn' | 'coldOut' | 'hotFlow' | 'coldFlow' | 'cleanU',
    QuantityDraft
  >;
  /** Shares in percent. */
  films: { hotShare: string; wallShare: string; hotExponent: string; coldExponent: string };
  clean: NonNullable<Unit['clean']>;
  limits: LimitDraft[];
  sensors: Record<Sensor, SensorDraft>;
  energy: {
    effect: '' | NonNullable<Unit['energy']>['effect'];
    price: { amount: string; per: string };
    efficiency: string;
    carbon: { kg: string; per: string };
  };
  cleaning: { cost: string; duration: QuantityDraft; crewHours: string; method: string };
  /** Screening thresholds: not edited here, kept as they are. */
  checks: Unit['checks'] | null;
};

/** An empty form in the reader's units; at the only site, where there is one. */
export function emptyDraft(system: UnitSystem, site: Site | null): UnitDraft {
  const blank = (kind: FormKind): QuantityDraft => ({ value: '', unit: firstUnit(kind, system) });
  return {
    site:
      site === null
        ? { name: '', timeZone: '', currency: system === 'us' ? 'USD' : 'EUR', isNew: true }
        : { ...site, isNew: false },
    tag: '',
    service: '',
    construction: '',
    arrangement: {
      kind: 'counter-current',
      shellPasses: '1',
      tubePasses: '2',
      mixed: 'none',
      hotPasses: '1',
      coldPasses: '1',
    },
    tubeSide: '',
    nozzles: { hotIn: '', coldIn: '' },
    areaBy: 'area',
    area: blank('area'),
    plates: { count: '', areaEach: blank('area') },
    hot: emptyStream(blank),
    cold: emptyStream(blank),
    design: {
      hotIn: blank('temperature'),
      hotOut: blank('temperature'),
      coldIn: blank('temperature'),
      coldOut: blank('temperature'),
      hotFlow: blank('flow'),
      coldFlow: blank('flow'),
      cleanU: blank('conductance'),
    },
    films: { hotShare: '', wallShare: '', hotExponent: '', coldExponent: '' },
    clean: 'datasheet',
    limits: [emptyLimit('fouling-resistance', system)],
    sensors: emptySensors(system),
    energy: {
      effect: '',
      price: { amount: '', per: 'kW.h' },
      efficiency: '',
      carbon: { kg: '', per: 'kW.h' },
    },
    cleaning: { cost: '', duration: blank('duration'), crewHours: '', method: '' },
    checks: null,
  };
}

function emptyStream(blank: (kind: FormKind) => QuantityDraft): StreamDraft {
  return {
    fluid: 'water',
    name: '',
    concentration: '',
    pressure: blank('pressure'),
    density: blank('density'),
    characterisationFactor: '',
    properties: {
      by: 'constants',
      specificHeat: blank('specificHeat'),
      density: blank('density'),
      viscosity: blank('viscosity'),
      conductivity: blank('conductivity'),
      units: Object.fromEntries(
        TABLE_KINDS.map((kind) => [kind, blank(kind).unit]),
      ) as PropertiesDraft['units'],
      table: [emptyTableRow(), emptyTableRow()],
    },
  };
}

export function emptyTableRow(): Record<TableKind, string> {
  return { temperature: '', specificHeat: '', density: '', viscosity: '', conductivity: '' };
}

const LIMIT_UNIT_KINDS: Record<LimitKind, FormKind | null> = {
  'fouling-resistance': 'foulingResistance',
  cleanliness: null,
  'outlet-temperature': 'temperature',
  'pressure-drop': 'pressure',
};

/** Kind of quantity a limit is stated in; null for a percentage. */
export function limitUnitKind(kind: LimitKind): FormKind | null {
  return LIMIT_UNIT_KINDS[kind];
}

export function emptyLimit(kind: LimitKind, system: UnitSystem): LimitDraft {
  const unitKind = limitUnitKind(kind);
  const unit = unitKind === null ? '%' : firstUnit(unitKind, system);
  return { kind, stream: 'cold', direction: kind === 'pressure-drop' ? 'above' : 'below', value: '', unit };
}

/** Kind of quantity a sensor's absolute uncertainty is stated in. */
export function sensorUnitKind(sensor: Sensor): FormKind {
  if (sensor.endsWith('Flow')) return 'flow';
  return sensor.endsWith('Drop') ? 'pressure' : 'temperatureDifference';
}

function emptySensors(system: UnitSystem): UnitDraft['sensors'] {
  const one = (sensor: Sensor): SensorDraft => {
    const kind = sensorUnitKind(sensor);
    const unit = kind === 'temperatureDifference' ? firstUnit(kind, system) : '%';
    return { value: '', unit, systematicShare: '', at: '' };
  };
  return Object.fromEntries(SENSORS.map((sensor) => [sensor, one(sensor)])) as UnitDraft['sensors'];
}
