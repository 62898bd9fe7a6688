import { describe, expect, it } from 'vitest';
import { type Unit, unitSchema } from '@/lib/contract/fleet-file';
import { conversionToSi, type Kind } from '@/lib/contract/ucum';
import { draftDocument } from '@/lib/report/setup/draft-document';
import { draftFromUnit } from '@/lib/report/setup/draft-from-unit';
import { fieldId, valueAt, withValueAt } from '@/lib/report/setup/draft-path';
import { DraftReader } from '@/lib/report/setup/draft-reader';
import { faultAt, faultExactlyAt, mergeFaults } from '@/lib/report/setup/fault-places';
import { fieldInWords } from '@/lib/report/setup/field-words';
import { FLEET_FILE_EXAMPLE } from '@/lib/report/setup/fleet-words';
import { following } from '@/lib/report/setup/following-choices';
import { FORM_KINDS, firstUnit, unitOptions } from '@/lib/report/setup/unit-choices';
import { emptyDraft, emptyLimit } from '@/lib/report/setup/unit-draft';
import { checkFleet } from '@/lib/work/register-fleet';
import { DEMO_FLEETS } from '@/seed/demo-fleet';
import { plainUnit } from '../support/units';

const site = { name: 'Test works', timeZone: 'Europe/Lisbon', currency: 'EUR' };
const there = (unit: Unit) => draftDocument(draftFromUnit(unit, site, 'si'));
const demoUnits = DEMO_FLEETS.flatMap(({ units }) => units);

describe('a datasheet through the form and back', () => {
  it.each(demoUnits.map((unit) => [unit.tag, unit] as const))(
    'leaves %s as it was when nothing is changed',
    (_tag, unit) => {
      const { document, faults } = there(unit);
      expect(faults).toEqual([]);
      expect(document.site).toEqual(site);
      // As it is stored: what is not stated is left out, in the order of the schema.
      expect(JSON.stringify(unitSchema.parse(document.unit))).toBe(JSON.stringify(unitSchema.parse(unit)));
    },
  );

  it('keeps every kind of limit, sensor statement and custom fluid, and what the form does not show', () => {
    const q = (value: number, unit: string) => ({ value, unit });
    const unit = plainUnit('E-1', {
      tubeSide: 'hot',
      construction: 'shell-and-tube',
      clean: 'learned',
      films: { hotShare: 0.07, wallShare: 0.29, hotExponent: 0.55 },
      hot: {
        fluid: 'custom',
        name: 'brine',
        properties: { specificHeat: q(3.1, 'kJ/(kg.K)'), density: q(1200, 'kg/m3') },
      },
      cold: { fluid: 'propylene-glycol', concentration: 0.333 },
      limits: [
        { kind: 'fouling-resistance', value: q(0.001, 'h.[ft_i]2.[degF]/[Btu_IT]') },
        { kind: 'cleanliness', below: 0.57 },
        { kind: 'outlet-temperature', stream: 'hot', above: q(120, '[degF]') },
        { kind: 'outlet-temperature', stream: 'cold', below: q(38, 'Cel') },
        { kind: 'pressure-drop', stream: 'hot', above: q(0.8, 'bar') },
      ],
      sensors: {
        hotIn: { uncertainty: q(0.5, '[degF]'), systematicShare: 0.29 },
        hotFlow: { uncertainty: 0.07, at: 'outlet' },
        coldFlow: { uncertainty: q(0.2, 'kg/s') },
      },
      checks: { frozenHours: 12 },
      energy: { effect: 'cooling', efficiency: 4.1 },
      cleaning: { duration: q(12, 'h'), method: 'lance' },
    });
    const { document, faults } = there(unit);
    expect(faults).toEqual([]);
    expect(unitSchema.parse(document.unit)).toEqual(unit);
  });

  it('keeps viscosities of an oil, polynomials and latent heat as they are stated', () => {
    const q = (value: number, unit: string) => ({ value, unit });
    const unit = plainUnit('E-1', {
      hot: {
        fluid: 'oil',
        density: q(868, 'kg/m3'),
        viscosities: [
          { temperature: q(104, '[degF]'), value: q(46, 'cSt') },
          { temperature: q(100, 'Cel'), value: q(5.4, 'mPa.s') },
        ],
      },
      cold: {
        fluid: 'custom',
        name: 'refrigerant',
        properties: {
          polynomial: {
            from: q(263.15, 'K'),
            to: q(50, 'Cel'),
            specificHeat: { coefficients: [1.34, 2.1e-3, 1.7e-5], unit: 'kJ/(kg.K)' },
            density: { coefficients: [1295, -3.4], unit: 'kg/m3' },
          },
          latentHeat: q(198.6, 'kJ/kg'),
          saturationTemperature: q(0, 'Cel'),
        },
      },
    });
    const { document, faults } = there(unit);
    expect(faults).toEqual([]);
    expect(unitSchema.parse(document.unit)).toEqual(unit);
  });

  it('keeps a clean test and the date a version holds from, to the letter', () => {
    const celsius = (value: number) => ({ value, unit: 'Cel' });
    const unit = unitSchema.parse(
      plainUnit('E-1', {
        clean: 'test',
        cleanTest: {
          at: '2026-05-04T08:00:00+01:00',
          hotIn: celsius(50),
          hotOut: celsius(40),
          coldIn: celsius(30),
          hotFlow: { value: 36, unit: 't/h' },
          coldFlow: { value: 10, unit: 'kg/s' },
        },
        validFrom: '2026-05-03T08:00:00+01:00',
      }),
    );
    const { document, faults } = there(unit);
    expect(faults).toEqual([]);
    expect(unitSchema.parse(document.unit)).toEqual(unit);
  });

  it('dates a change of the equipment by the clock of the site, and asks for the date', () => {
    const draft = draftFromUnit(plainUnit('E-1'), site, 'si');
    draft.validity = { ...draft.validity, kind: 'change', at: '2026-05-03T08:00' };
    expect(draftDocument(draft).document.unit).toMatchObject({ validFrom: '2026-05-03T07:00:00.000Z' });
    draft.validity.at = '';
    expect(draftDocument(draft).faults).toMatchObject([{ field: 'unit.validFrom' }]);
    // One o'clock comes twice in Lisbon when the clocks go back.
    draft.validity.at = '2026-10-25T01:30';
    expect(draftDocument(draft).faults[0]!.message).toContain('twice or never');
  });

  it('shows a table whose rows state different units in SI, with the same meaning', () => {
    const row = (temperature: number, specificHeat: { value: number; unit: string }) => ({
      temperature: { value: temperature, unit: 'Cel' },
      specificHeat,
    });
    const table = [row(0, { value: 4, unit: 'kJ/(kg.K)' }), row(50, { value: 4100, unit: 'J/(kg.K)' })];
    const draft = draftFromUnit(
      plainUnit('E-1', { hot: { fluid: 'custom', properties: { table } } }),
      site,
      'si',
    );
    expect(draft.hot.properties.units.specificHeat).toBe('J/(kg.K)');
    expect(draft.hot.properties.table.map(({ specificHeat }) => Number(specificHeat))).toEqual([4000, 4100]);
  });
});

describe('what is typed into the form', () => {
  it.each([
    ['12.5', 12.5],
    ['12,5', 12.5],
    [' -3 ', -3],
    ['−3', -3],
    ['2e-4', 2e-4],
    ['.5', 0.5],
    ['1000', 1000],
  ])('reads "%s" as %d', (typed, value) => {
    expect(new DraftReader().number('x', typed)).toBe(value);
  });

  it.each(['1,000', '12 5', '1.2.3', 'abc', '0x10', 'Infinity', '5 kg/s', '-'])(
    'does not guess at "%s"',
    (typed) => {
      const read = new DraftReader();
      expect(read.number('x', typed)).toBeUndefined();
      expect(read.faults).toHaveLength(1);
    },
  );

  it('reads coefficients between blanks or semicolons, and tells which one it cannot read', () => {
    const read = new DraftReader();
    expect(read.numbers('x', ' 3,9  0.0012; −2e-6 ')).toEqual([3.9, 0.0012, -2e-6]);
    expect(read.numbers('x', '  ')).toBeUndefined();
    expect(read.faults).toEqual([]);
    expect(read.numbers('x', '3.9 abc')).toBeUndefined();
    expect(read.numbers('y', '', true)).toBeUndefined();
    expect(read.faults.map(({ field }) => field)).toEqual(['x[1]', 'y']);
  });

  it('wants both viscosities of an oil with their temperatures, or none', () => {
    const draft = emptyDraft('si', site);
    draft.hot = { ...draft.hot, fluid: 'oil', density: { value: '868', unit: 'kg/m3' } };
    draft.hot.viscosities[0].value.value = '46';
    const fields = draftDocument(draft).faults.map(({ field }) => field);
    expect(fields.filter((field) => field.includes('viscosities'))).toEqual([
      'unit.hot.viscosities[0].temperature',
      'unit.hot.viscosities[1].temperature',
      'unit.hot.viscosities[1].value',
    ]);
    expect(fields.slice(0, 3).map(fieldInWords)).toContain('Hot stream, viscosities');
  });

  it('names what polynomials still need', () => {
    const draft = emptyDraft('si', site);
    draft.cold = { ...draft.cold, fluid: 'custom' };
    draft.cold.properties = { ...draft.cold.properties, by: 'polynomial' };
    const fields = draftDocument(draft).faults.map(({ field }) => field);
    expect(fields.filter((field) => field.startsWith('unit.cold'))).toEqual([
      'unit.cold.properties.polynomial.from',
      'unit.cold.properties.polynomial.to',
      'unit.cold.properties.polynomial.specificHeat.coefficients',
    ]);
    expect(fieldInWords('unit.cold.properties.polynomial.specificHeat.coefficients[1]')).toBe(
      'Cold stream, specific heat',
    );
  });

  it('names every field an empty form still needs, in the order of the form', () => {
    const fields = draftDocument(emptyDraft('si', null)).faults.map(({ field }) => field);
    expect(fields).toEqual([
      'unit.tag',
      'site.name',
      'site.timeZone',
      'unit.area',
      ...['hotIn', 'hotOut', 'coldIn', 'coldOut', 'hotFlow', 'coldFlow'].map((name) => `unit.design.${name}`),
      'unit.limits[0]',
    ]);
  });

  it('leaves out what the chosen fluid, arrangement and area do not ask for', () => {
    const draft = emptyDraft('si', site);
    draft.hot = { ...draft.hot, fluid: 'oil', concentration: '30', density: { value: '860', unit: 'kg/m3' } };
    draft.arrangement = { ...draft.arrangement, kind: 'plate' };
    draft.areaBy = 'plates';
    draft.plates.count = '101';
    const unit = draftDocument(draft).document.unit as Record<string, unknown>;
    expect(unit.hot).toEqual({ fluid: 'oil', density: { value: 860, unit: 'kg/m3' } });
    expect(unit.arrangement).toEqual({ kind: 'plate', hotPasses: 1, coldPasses: 1 });
    expect(unit).not.toHaveProperty('area');
  });

  it('wants both nozzles or none, one limit at least, and to know what the energy does', () => {
    const draft = emptyDraft('us', site);
    draft.nozzles.hotIn = 'top';
    draft.limits = [];
    draft.energy.price.amount = '0.1';
    const fields = draftDocument(draft).faults.map(({ field }) => field);
    expect(fields).toEqual(
      expect.arrayContaining(['unit.nozzles.coldIn', 'unit.limits', 'unit.energy.effect']),
    );
  });

  it('brings plate passes and plates with a plate unit, and leaves other choices alone', () => {
    const draft = { ...emptyDraft('si', null), construction: 'plate' as const };
    expect(following(draft, 'construction')).toMatchObject({
      areaBy: 'plates',
      arrangement: { kind: 'plate' },
    });
    expect(following(draft, 'tag')).toBe(draft);
  });
});

describe('units of measure in the form', () => {
  const kinds: Record<string, Kind[]> = {
    flow: ['massFlow', 'volumeFlow'],
    oilViscosity: ['viscosity', 'kinematicViscosity'],
  };

  it.each(FORM_KINDS)('are all units of %s to the UCUM library', (kind) => {
    for (const { value, label } of unitOptions(kind, '')) {
      const measured = kinds[kind] ?? [kind as Kind];
      expect(
        measured.some((one) => conversionToSi(value, one) !== null),
        value,
      ).toBe(true);
      expect(label).not.toMatch(/[[\]]/);
    }
  });

  it('begin with the reader’s system, and keep one that a datasheet states and nobody offers', () => {
    expect([firstUnit('temperature', 'us'), firstUnit('temperature', 'si')]).toEqual(['[degF]', 'Cel']);
    expect(firstUnit('duration', 'us')).toBe('h');
    expect(unitOptions('flow', 'L/min').at(-1)).toEqual({ value: 'L/min', label: 'L/min' });
    expect(emptyLimit('pressure-drop', 'us')).toMatchObject({ unit: '[psi]', direction: 'above' });
  });
});

describe('faults beside their fields', () => {
  it('let the form speak where both know of a field, and the server of everything else', () => {
    const own = [{ field: 'unit.design.hotIn', message: 'is required' }];
    const server = [
      { field: 'unit.design.hotIn', message: 'expected object' },
      { field: 'unit.design.hotIn.unit', message: 'expected string' },
      { field: 'unit.design', message: 'cannot be reached' },
      { field: 'unit.design.hotInlet', message: 'another field' },
      { field: 'unit.tag', message: 'there is already a unit' },
    ];
    expect(mergeFaults(own, server).map(({ field }) => field)).toEqual([
      'unit.design.hotIn',
      'unit.design.hotInlet',
      'unit.tag',
    ]);
  });

  it('speak in the words of the form', () => {
    const [fault] = mergeFaults(
      [],
      [{ field: 'unit.design.hotOut', message: 'must be below hotIn: the hot stream is cooled' }],
    );
    expect(fault!.message).toBe('must be below the hot inlet: the hot stream is cooled');
  });

  it('stand at the field, or the part, that they belong to', () => {
    const faults = [
      { field: 'unit.limits[1].below', message: 'too low' },
      { field: 'unit.hot', message: 'outside its range' },
    ];
    expect(faultAt(faults, 'unit.limits[1]')).toBe('too low');
    expect(faultAt(faults, 'unit.limits[10]')).toBeNull();
    expect(faultAt(faults, 'unit.hot.fluid')).toBeNull();
    expect(faultExactlyAt(faults, 'unit.hot')).toBe('outside its range');
    expect(faultExactlyAt(faults, 'unit.limits[1]')).toBeNull();
  });

  it('are called as a person calls the field', () => {
    expect(fieldInWords('unit.design.hotIn.unit')).toBe('Hot inlet temperature, design');
    expect(fieldInWords('unit.sensors.coldFlow.uncertainty')).toBe('Cold flow, uncertainty');
    expect(fieldInWords('unit.limits[2].above')).toBe('Limit 3');
    expect(fieldInWords('unit.hot.properties.table[1].density')).toBe('Hot fluid, row 2, density');
    expect(fieldInWords('unit.cold.properties.specificHeat.value')).toBe('Cold stream, specific heat');
    expect(fieldInWords('unit.arrangement.kind')).toBe('Arrangement');
    expect(fieldInWords('unit.design')).toBe('Design point');
    expect(fieldInWords('elsewhere')).toBe('elsewhere');
  });

  it('are found by paths, which name values and controls alike', () => {
    const draft = emptyDraft('si', null);
    const changed = withValueAt(draft, 'limits[0].value', '3');
    expect(valueAt(changed, 'limits[0].value')).toBe('3');
    expect(draft.limits[0]!.value).toBe('');
    expect(changed.hot).toBe(draft.hot);
    expect(Array.isArray(changed.limits)).toBe(true);
    expect(fieldId('unit.limits[0].value')).toBe('field-unit-limits-0-value');
  });
});

it('the example fleet file can be registered as it is', () => {
  expect(checkFleet(JSON.parse(FLEET_FILE_EXAMPLE)).units).toHaveLength(1);
});
