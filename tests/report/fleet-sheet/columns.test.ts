import { describe, expect, it } from 'vitest';
import { FLEET_SITE_LEAVES } from '@/lib/contract/fleet-sheet/other-columns';
import { COLUMNS_OF_A_UNIT, SHEET_TABLES } from '@/lib/contract/fleet-sheet/tables';
import { UNIT_LEAVES } from '@/lib/contract/fleet-sheet/unit-leaves';
import { offeredUnits, unitInWords, unitNamed } from '@/lib/contract/fleet-sheet/unit-words';
import { FORM_KINDS, unitOptions } from '@/lib/report/setup/unit-choices';

/** Fields that no column names by their own path, each with where they stand instead. */
const STATED_OTHERWISE: [RegExp, string][] = [
  [/^(hot|cold)\.properties\.table\[\]\./, 'a row of the sheet "Fluids"'],
  [
    /^(hot|cold)\.properties\.(latentHeat|saturationTemperature)$/,
    'a column of the sheets "Fluids" and "Polynomials"',
  ],
  [
    /^(hot|cold)\.properties\.(specificHeat|density|viscosity|conductivity)$/,
    'the only row of a fluid on the sheet "Fluids", without a temperature',
  ],
  [/^(hot|cold)\.properties\.polynomial\.(from|to)$/, 'columns of the sheet "Polynomials"'],
  [
    /^(hot|cold)\.properties\.polynomial\.\w+\.(coefficients\[\]|unit)$/,
    'columns c0 to c9 and "Unit of the property" of the sheet "Polynomials", a row for each property',
  ],
];

describe('the columns of the fleet sheet', () => {
  it('state every field of a unit, or say where else it stands', () => {
    const columns = new Set(COLUMNS_OF_A_UNIT.map(({ path }) => path));
    const stray = UNIT_LEAVES.map(({ path }) => path).filter(
      (path) => !columns.has(path) && !STATED_OTHERWISE.some(([pattern]) => pattern.test(path)),
    );
    expect(stray).toEqual([]);
    expect(UNIT_LEAVES.length).toBeGreaterThan(120);
  });

  it('state every field of the site and its supplies', () => {
    const columns = new Set(
      [...SHEET_TABLES.sites.columns, ...SHEET_TABLES.supplies.columns].map(({ path }) => path),
    );
    expect(FLEET_SITE_LEAVES.map(({ path }) => path).filter((path) => !columns.has(path))).toEqual([]);
  });

  it('have headings of which no two of a sheet are alike, and no brackets, in which a unit would stand', () => {
    const sheets = [COLUMNS_OF_A_UNIT, ...Object.values(SHEET_TABLES).map(({ columns }) => columns)];
    for (const columns of sheets) {
      const plain = columns.map(({ heading }) => heading.toLowerCase().replace(/[^a-z0-9]/g, ''));
      expect(plain.filter((heading, i) => plain.indexOf(heading) !== i)).toEqual([]);
      expect(columns.filter(({ heading }) => /[()[\]]/.test(heading))).toEqual([]);
    }
  });

  it('each say what they mean, and what is measured has a unit', () => {
    for (const { columns } of Object.values(SHEET_TABLES)) {
      expect(columns.filter(({ meaning }) => meaning.length < 4).map(({ heading }) => heading)).toEqual([]);
      const measured = columns.filter(({ kind }) => kind.by === 'quantity' || kind.by === 'priced');
      expect(measured.filter(({ unit }) => unit === null).map(({ heading }) => heading)).toEqual([]);
    }
  });

  it('require what a fleet file requires', () => {
    const required = COLUMNS_OF_A_UNIT.filter(({ isRequired }) => isRequired).map(({ path }) => path);
    expect(required).toEqual([
      'tag',
      'arrangement.kind',
      'hot.fluid',
      'cold.fluid',
      ...['hotIn', 'hotOut', 'coldIn', 'coldOut', 'hotFlow', 'coldFlow'].map((name) => `design.${name}`),
    ]);
  });
});

describe('units of measure in the fleet sheet', () => {
  const measured = COLUMNS_OF_A_UNIT.filter(({ unit }) => unit !== null);

  it('are read back as the code they were written for', () => {
    for (const { kind } of measured) {
      for (const words of offeredUnits(kind)) {
        const code = unitNamed(kind, words);
        expect(code, words).not.toBeNull();
        if (code !== 'fraction') expect(unitInWords(kind, code!)).toBe(words);
      }
    }
  });

  it('are all those that the form of a unit offers', () => {
    const kindOf = (path: string) => measured.find((column) => column.path === path)!.kind;
    const places: Record<string, string> = {
      temperature: 'design.hotIn',
      temperatureDifference: 'sensors.hotIn.uncertainty',
      flow: 'design.hotFlow',
      area: 'area',
      length: 'plates.channelGap',
      pressure: 'hot.pressure',
      conductance: 'design.cleanU',
      foulingResistance: 'limits.fouling-resistance.value',
      density: 'hot.density',
      oilViscosity: 'hot.viscosities.0.value',
      duration: 'cleaning.duration',
      energy: 'energy.price',
    };
    for (const kind of FORM_KINDS.filter((name) => places[name] !== undefined)) {
      for (const { value } of unitOptions(kind, '')) {
        expect(unitNamed(kindOf(places[kind]!), value), `${kind} ${value}`).toBe(value);
      }
    }
  });

  it('may be written as people do', () => {
    const temperature = measured.find(({ path }) => path === 'design.hotIn')!.kind;
    const flow = measured.find(({ path }) => path === 'design.hotFlow')!.kind;
    const price = measured.find(({ path }) => path === 'energy.price')!.kind;
    const carbon = measured.find(({ path }) => path === 'energy.carbon')!.kind;
    expect(['°F', 'degF', '[degF]', 'deg F', 'F'].map((text) => unitNamed(temperature, text))).toEqual([
      '[degF]',
      '[degF]',
      '[degF]',
      '[degF]',
      'F',
    ]);
    expect(['m3/h', 'm³/h', 'm^3/h', 'm 3/h', 'gpm'].map((text) => unitNamed(flow, text))).toEqual([
      'm3/h',
      'm3/h',
      'm3/h',
      'm3/h',
      'gpm',
    ]);
    expect(['per kWh', '/kWh', 'kW.h', 'per MMBtu'].map((text) => unitNamed(price, text))).toEqual([
      'kW.h',
      'kW.h',
      'kW.h',
      '10*6.[Btu_IT]',
    ]);
    expect(['kg per kWh', 'kg/kWh', 'g/kWh'].map((text) => unitNamed(carbon, text))).toEqual([
      'kW.h',
      'kW.h',
      null,
    ]);
    expect(unitNamed(temperature, 'bar')).toBeNull();
  });
});
