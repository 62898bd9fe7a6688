import type { Site, Unit } from '@/lib/contract/fleet-file';
import type { Quantity } from '@/lib/contract/quantity';
import { SI_UNIT, toSi } from '@/lib/contract/ucum';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { localDateTime } from '@/lib/time/local-instant';
import { checksDraft } from './checks-draft';
import { cleaningDraft } from './cleaning-draft';
import { energyDraft, pumpingDraft } from './energy-draft';
import { blankIn, numberText, percentText, quantityText } from './quantity-draft';
import {
  CLEAN_TEST_SENSORS,
  type CleanTestDraft,
  emptyDraft,
  emptyLimit,
  emptyTableRow,
  type LimitDraft,
  type PolynomialDraft,
  PROPERTY_KINDS,
  type PropertiesDraft,
  type SensorDraft,
  type StreamDraft,
  TABLE_KINDS,
  type UnitDraft,
  type ViscosityDraft,
} from './unit-draft';

/** A datasheet in the form, in its own units of measure; what it does not state stays empty. */
export function draftFromUnit(unit: Unit, site: Site, system: UnitSystem): UnitDraft {
  const { name, timeZone, currency } = site;
  const blank = emptyDraft(system, { name, timeZone, currency });
  const { arrangement, films = {} } = unit;
  const ownUnits = blankIn(system);
  return {
    ...blank,
    tag: unit.tag,
    service: unit.service ?? '',
    construction: unit.construction ?? '',
    arrangement: {
      kind: arrangement.kind,
      shellPasses: numberText(arrangement.shellPasses),
      tubePasses: numberText(arrangement.tubePasses),
      mixed: arrangement.mixed ?? 'none',
      hotPasses: numberText(arrangement.hotPasses),
      coldPasses: numberText(arrangement.coldPasses),
    },
    tubeSide: unit.tubeSide ?? '',
    nozzles: unit.nozzles ?? blank.nozzles,
    areaBy: unit.plates === undefined ? 'area' : 'plates',
    area: quantityText(unit.area, blank.area),
    plates: {
      count: numberText(unit.plates?.count),
      areaEach: quantityText(unit.plates?.areaEach, blank.plates.areaEach),
      channelGap: quantityText(unit.plates?.channelGap, blank.plates.channelGap),
      channelWidth: quantityText(unit.plates?.channelWidth, blank.plates.channelWidth),
    },
    hot: streamDraft(unit.hot, blank.hot),
    cold: streamDraft(unit.cold, blank.cold),
    design: designDraft(unit, blank.design),
    films: {
      hotShare: percentText(films.hotShare),
      wallShare: percentText(films.wallShare),
      hotExponent: numberText(films.hotExponent),
      coldExponent: numberText(films.coldExponent),
    },
    pressureDrop: {
      hotExponent: numberText(unit.pressureDrop?.hotExponent),
      coldExponent: numberText(unit.pressureDrop?.coldExponent),
    },
    clean: unit.clean ?? 'datasheet',
    limits: unit.limits.map((limit) => limitDraft(limit, system)),
    sensors: Object.fromEntries(
      SENSORS.map((sensor) => [sensor, sensorDraft(unit, sensor, blank.sensors[sensor])]),
    ) as UnitDraft['sensors'],
    checks: checksDraft(unit.checks ?? {}, ownUnits),
    energy: energyDraft(unit.energy),
    pumping: pumpingDraft(unit.pumping ?? {}, ownUnits),
    cleaning: cleaningDraft(unit.cleaning ?? {}, ownUnits),
    cleanTest: cleanTestDraft(unit, timeZone, blank.cleanTest),
    validity: { ...blank.validity, kept: unit.validFrom ?? '' },
  };
}

function designDraft(unit: Unit, blank: UnitDraft['design']): UnitDraft['design'] {
  const names = Object.keys(blank) as (keyof UnitDraft['design'])[];
  return Object.fromEntries(
    names.map((name) => [name, quantityText(unit.design[name], blank[name])]),
  ) as UnitDraft['design'];
}

function streamDraft(stream: Unit['hot'], blank: StreamDraft): StreamDraft {
  return {
    fluid: stream.fluid,
    name: stream.name ?? '',
    concentration: percentText(stream.concentration),
    pressure: quantityText(stream.pressure, blank.pressure),
    density: quantityText(stream.density, blank.density),
    characterisationFactor: numberText(stream.characterisationFactor),
    viscosities: viscositiesDraft(stream.viscosities, blank.viscosities),
    properties: propertiesDraft(stream.properties, blank.properties),
  };
}

function viscositiesDraft(
  given: Unit['hot']['viscosities'],
  blank: StreamDraft['viscosities'],
): StreamDraft['viscosities'] {
  const one = (i: 0 | 1): ViscosityDraft => ({
    temperature: quantityText(given?.[i].temperature, blank[i].temperature),
    value: quantityText(given?.[i].value, blank[i].value),
  });
  return [one(0), one(1)];
}

type Properties = NonNullable<Unit['hot']['properties']>;

function propertiesDraft(given: Properties | undefined, blank: PropertiesDraft): PropertiesDraft {
  if (given === undefined) return blank;
  return {
    ...statedDraft(given, blank),
    latentHeat: quantityText(given.latentHeat, blank.latentHeat),
    saturationTemperature: quantityText(given.saturationTemperature, blank.saturationTemperature),
  };
}

function statedDraft(given: Properties, blank: PropertiesDraft): PropertiesDraft {
  if ('polynomial' in given) {
    return { ...blank, by: 'polynomial', polynomial: polynomialDraft(given.polynomial, blank.polynomial) };
  }
  if ('table' in given) return tableDraft(given.table, blank);
  const constants = PROPERTY_KINDS.map((kind) => [kind, quantityText(given[kind], blank[kind])]);
  return { ...blank, ...Object.fromEntries(constants), by: 'constants' };
}

type Polynomials = Extract<Properties, { polynomial: unknown }>['polynomial'];

function polynomialDraft(given: Polynomials, blank: PolynomialDraft): PolynomialDraft {
  const properties = PROPERTY_KINDS.map((kind) => {
    const stated = given[kind];
    return [
      kind,
      stated === undefined ? blank[kind] : { value: stated.coefficients.join('  '), unit: stated.unit },
    ];
  });
  return {
    ...blank,
    from: quantityText(given.from, blank.from),
    to: quantityText(given.to, blank.to),
    ...Object.fromEntries(properties),
  };
}

type TableRow = Extract<Properties, { table: unknown }>['table'][number];

function tableDraft(rows: TableRow[], blank: PropertiesDraft): PropertiesDraft {
  const units = { ...blank.units };
  for (const kind of TABLE_KINDS) {
    const stated = new Set(rows.map((row) => row[kind]?.unit).filter((unit) => unit !== undefined));
    // A column has one unit in the form: rows stated in several are shown in SI.
    if (stated.size > 0) units[kind] = stated.size === 1 ? [...stated][0]! : SI_UNIT[kind];
  }
  const table = rows.map((row) => {
    const cells = TABLE_KINDS.map((kind) => [kind, cellText(row[kind], kind, units[kind])]);
    return { ...emptyTableRow(), ...Object.fromEntries(cells) };
  });
  return { ...blank, by: 'table', units, table };
}

function cellText(given: Quantity | undefined, kind: (typeof TABLE_KINDS)[number], unit: string): string {
  if (given === undefined) return '';
  return String(given.unit === unit ? given.value : toSi(given.value, given.unit, kind));
}

function limitDraft(limit: Unit['limits'][number], system: UnitSystem): LimitDraft {
  const blank = emptyLimit(limit.kind, system);
  switch (limit.kind) {
    case 'fouling-resistance':
      return { ...blank, ...quantityText(limit.value, blank) };
    case 'cleanliness':
      return { ...blank, value: percentText(limit.below) };
    case 'pressure-drop':
      return { ...blank, ...quantityText(limit.above, blank), stream: limit.stream };
    case 'outlet-temperature':
      return {
        ...blank,
        ...quantityText(limit.above ?? limit.below, blank),
        stream: limit.stream,
        direction: limit.above === undefined ? 'below' : 'above',
      };
  }
}

function sensorDraft(unit: Unit, sensor: Sensor, blank: SensorDraft): SensorDraft {
  const stated = unit.sensors?.[sensor];
  if (stated === undefined) return blank;
  const { uncertainty, systematicShare } = stated;
  const at: SensorDraft['at'] = 'at' in stated ? (stated.at ?? '') : '';
  const nominal = quantityText('nominal' in stated ? stated.nominal : undefined, blank.nominal);
  const rest = { systematicShare: percentText(systematicShare), at, nominal };
  if (uncertainty === undefined) return { ...blank, ...rest };
  if (typeof uncertainty === 'number') return { value: percentText(uncertainty), unit: '%', ...rest };
  return { ...quantityText(uncertainty, blank), ...rest };
}

function cleanTestDraft({ cleanTest }: Unit, timeZone: string, blank: CleanTestDraft): CleanTestDraft {
  if (cleanTest === undefined) return blank;
  const values = CLEAN_TEST_SENSORS.map((sensor) => [sensor, quantityText(cleanTest[sensor], blank[sensor])]);
  const { at = '' } = cleanTest;
  return {
    ...(Object.fromEntries(values) as CleanTestDraft),
    at: at === '' ? '' : localDateTime(Date.parse(at), timeZone),
    stated: at,
  };
}
