import type { Site, Unit } from '@/lib/contract/fleet-file';
import { PROPERTY_COLUMNS, type PropertyColumn } from '@/lib/contract/property-rows';
import { FLOW_SENSORS, SENSORS, type Sensor, TEMPERATURE_SENSORS } from '@/lib/core/exchange/exchanger';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { type ChecksDraft, emptyChecks } from './checks-draft';
import { type CleaningDraft, cleaningDraft } from './cleaning-draft';
import { type EnergyDraft, energyDraft, type PumpingDraft, pumpingDraft } from './energy-draft';
import { type Blank, blankIn, type QuantityDraft } from './quantity-draft';
import { type FormKind, firstUnit } from './unit-choices';

export type FluidName = Unit['hot']['fluid'];
export type ArrangementKind = Unit['arrangement']['kind'];
export type Construction = NonNullable<Unit['construction']>;
export type LimitKind = Unit['limits'][number]['kind'];
export type Side = 'hot' | 'cold';

export const PROPERTY_KINDS = ['specificHeat', 'density', 'viscosity', 'conductivity'] as const;
export const TABLE_KINDS = PROPERTY_COLUMNS;
export type TableKind = PropertyColumn;
export type PropertyKind = (typeof PROPERTY_KINDS)[number];

/** Of a property by a polynomial, `value` is its coefficients one after another, the constant first. */
export type PolynomialDraft = Record<PropertyKind | 'from' | 'to', QuantityDraft>;

export type PropertiesDraft = Record<PropertyKind, QuantityDraft> & {
  by: 'constants' | 'table' | 'polynomial';
  units: Record<TableKind, string>;
  table: Record<TableKind, string>[];
  polynomial: PolynomialDraft;
  latentHeat: QuantityDraft;
  saturationTemperature: QuantityDraft;
};

/** A viscosity of an oil and where it holds. */
export type ViscosityDraft = { temperature: QuantityDraft; value: QuantityDraft };

export type StreamDraft = {
  fluid: FluidName;
  name: string;
  /** Percent by mass. */
  concentration: string;
  pressure: QuantityDraft;
  density: QuantityDraft;
  characterisationFactor: string;
  viscosities: [ViscosityDraft, ViscosityDraft];
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
  /** Where a flow meter sits, and the constant flow assumed where there is none: flows only. */
  at: '' | 'inlet' | 'outlet';
  nominal: QuantityDraft;
};

/** A unit as a form holds it: every number as typed, every unit of measure as chosen, '' for not stated. */
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
  plates: {
    count: string;
    areaEach: QuantityDraft;
    channelGap: QuantityDraft;
    channelWidth: QuantityDraft;
  };
  hot: StreamDraft;
  cold: StreamDraft;
  design: Record<
    'hotIn' | 'hotOut' | 'coldIn' | 'coldOut' | 'hotFlow' | 'coldFlow' | 'cleanU',
    QuantityDraft
  >;
  /** Shares in percent. */
  films: { hotShare: string; wallShare: string; hotExponent: string; coldExponent: string };
  /** Exponents of pressure drop on flow. */
  pressureDrop: { hotExponent: string; coldExponent: string };
  clean: NonNullable<Unit['clean']>;
  limits: LimitDraft[];
  sensors: Record<Sensor, SensorDraft>;
  checks: ChecksDraft;
  energy: EnergyDraft;
  pumping: PumpingDraft;
  cleaning: CleaningDraft;
  /** One test of the clean unit, asked for where the clean reference comes from it. */
  cleanTest: CleanTestDraft;
  /** Whether the form corrects what holds already, or says how the equipment stands since a later time. */
  validity: {
    kind: 'correction' | 'change';
    /** Since when the datasheet says it holds, kept by a correction; '' for all along. */
    kept: string;
    /** Local time of the site, `2026-05-04T08:00`. */
    at: string;
  };
};

/** Values of the clean test, its local time, and that time as the datasheet states it, kept while it is not changed. */
export type CleanTestDraft = Record<(typeof CLEAN_TEST_SENSORS)[number], QuantityDraft> & {
  at: string;
  stated: string;
};

export const CLEAN_TEST_SENSORS = [...TEMPERATURE_SENSORS, ...FLOW_SENSORS] as const;

function emptyCleanTest(blank: Blank): CleanTestDraft {
  const values = CLEAN_TEST_SENSORS.map((sensor) => [
    sensor,
    blank(sensor.endsWith('Flow') ? 'flow' : 'temperature'),
  ]);
  return { ...(Object.fromEntries(values) as CleanTestDraft), at: '', stated: '' };
}

/** An empty form in the reader's units; at the only site, where there is one. */
export function emptyDraft(system: UnitSystem, site: Site | null): UnitDraft {
  const blank = blankIn(system);
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
    plates: {
      count: '',
      areaEach: blank('area'),
      channelGap: blank('length'),
      channelWidth: blank('length'),
    },
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
    pressureDrop: { hotExponent: '', coldExponent: '' },
    clean: 'datasheet',
    limits: [emptyLimit('fouling-resistance', system)],
    sensors: emptySensors(system),
    checks: emptyChecks(blank),
    energy: energyDraft(undefined),
    pumping: pumpingDraft({}, blank),
    cleaning: cleaningDraft({}, blank),
    cleanTest: emptyCleanTest(blank),
    validity: { kind: 'correction', kept: '', at: '' },
  };
}

function emptyStream(blank: Blank): StreamDraft {
  return {
    fluid: 'water',
    name: '',
    concentration: '',
    pressure: blank('pressure'),
    density: blank('density'),
    characterisationFactor: '',
    viscosities: [emptyViscosity(blank), emptyViscosity(blank)],
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
      polynomial: {
        from: blank('temperature'),
        to: blank('temperature'),
        specificHeat: blank('specificHeat'),
        density: blank('density'),
        viscosity: blank('viscosity'),
        conductivity: blank('conductivity'),
      },
      latentHeat: blank('specificEnthalpy'),
      saturationTemperature: blank('temperature'),
    },
  };
}

function emptyViscosity(blank: Blank): ViscosityDraft {
  return { temperature: blank('temperature'), value: blank('oilViscosity') };
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
    const nominal = { value: '', unit: firstUnit('flow', system) };
    return { value: '', unit, systematicShare: '', at: '', nominal };
  };
  return Object.fromEntries(SENSORS.map((sensor) => [sensor, one(sensor)])) as UnitDraft['sensors'];
}
