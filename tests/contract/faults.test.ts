import { describe, expect, it } from 'vitest';
import { faultsOf } from '@/lib/contract/faults';
import { unitSchema } from '@/lib/contract/fleet-file';
import { plainUnit } from '../support/units';

function faults(changes: Record<string, unknown>) {
  const parsed = unitSchema.safeParse({ ...plainUnit('E-1'), ...changes });
  return parsed.success ? [] : faultsOf(parsed.error);
}

describe('what is wrong with a document, in words of a person', () => {
  it.each([
    [{ hot: undefined }, 'hot', 'is missing'],
    [{ limits: [] }, 'limits', 'must hold at least 1'],
    [{ service: 7 }, 'service', 'must be a text'],
    [{ clean: 'often' }, 'clean', 'must be one of datasheet, test, learned'],
    [{ films: { hotExponent: 2 } }, 'films.hotExponent', 'must be at most 1'],
    [{ checks: { balanceTolerance: 0 } }, 'checks.balanceTolerance', 'must be greater than 0'],
    [
      { plates: { count: 2.5, areaEach: { value: 1, unit: 'm2' } }, area: undefined },
      'plates.count',
      'must be a whole number',
    ],
    [{ service: 'x'.repeat(121) }, 'service', 'must have at most 120 characters'],
    [{ area: { value: -1, unit: 'm2' } }, 'area.value', 'must be greater than 0'],
    [
      { sensors: { hotIn: { uncertainty: { value: -1, unit: 'K' } } } },
      'sensors.hotIn.uncertainty.value',
      'must not be negative',
    ],
    [
      { sensors: { coldFlow: { uncertainty: { value: -0.5, unit: 'kg/s' } } } },
      'sensors.coldFlow.uncertainty.value',
      'must not be negative',
    ],
  ])('%j: %s %s', (changes, field, message) => {
    expect(faults(changes)).toContainEqual({ field, message });
  });

  it('of a choice between shapes tells what is wrong with the one that was meant', () => {
    const table = [
      { temperature: { value: 1, unit: 'Cel' }, specificHeat: { value: -4, unit: 'kJ/(kg.K)' } },
    ];
    const hot = { fluid: 'custom', properties: { table } };
    const fields = faults({ hot }).map(({ field }) => field);
    expect(fields).toContain('hot.properties.table[0].specificHeat.value');
    const sensors = { hotIn: { uncertainty: { value: 0.2, unit: 'kg/s' } } };
    expect(faults({ sensors }).map(({ field }) => field)).toEqual(['sensors.hotIn.uncertainty.unit']);
  });

  it.each([
    [{ limts: [] }, 'limts', 'limits'],
    [{ films: { 'hotShare ': 0.4 } }, 'films.hotShare ', 'hotShare'],
    [{ arrangement: { kind: 'plate', hotPases: 2 } }, 'arrangement.hotPases', 'hotPasses'],
    [{ area: { value: 20, unit: 'm2', uint: 'm2' } }, 'area.uint', 'unit'],
    [{ hot: { fluid: 'water', presure: { value: 3, unit: 'bar' } } }, 'hot.presure', 'pressure'],
    [{ sensors: { hotin: {} } }, 'sensors.hotin', 'hotIn'],
    [{ sensors: { hotFlow: { nominel: 3 } } }, 'sensors.hotFlow.nominel', 'nominal'],
    [{ limits: [{ kind: 'cleanliness', below: 0.7, abov: 1 }] }, 'limits[0].abov', null],
    [{ energy: { effect: 'heating', price: { amount: 1, per: 'MJ', pr: 1 } } }, 'energy.price.pr', 'per'],
    [{ checks: { spikeTreshold: 5 } }, 'checks.spikeTreshold', 'spikeThreshold'],
    [{ cleaning: { crew: 4 } }, 'cleaning.crew', null],
    [{ wholly: 'unknown' }, 'wholly', null],
  ])('refuses a field it does not know and offers the one that was meant: %j', (changes, field, meant) => {
    const message = `is not known here${meant === null ? ': check how it is spelt' : `; did you mean "${meant}"?`}`;
    expect(faults(changes)).toContainEqual({ field, message });
  });

  it('tells several unknown fields of one object each at its own place', () => {
    expect(faults({ servise: 'x', tubeside: 'hot' })).toEqual([
      { field: 'servise', message: 'is not known here; did you mean "service"?' },
      { field: 'tubeside', message: 'is not known here; did you mean "tubeSide"?' },
    ]);
  });

  it.each([
    [{ specificHeet: { value: 4, unit: 'kJ/(kg.K)' } }, 'specificHeet', 'specificHeat'],
    [{ tabel: [] }, 'tabel', 'table'],
    [{ polynomal: {} }, 'polynomal', 'polynomial'],
  ])('finds the shape of a custom fluid that a misspelt field belongs to: %j', (properties, field, meant) => {
    expect(faults({ hot: { fluid: 'custom', properties } })).toContainEqual({
      field: `hot.properties.${field}`,
      message: `is not known here; did you mean "${meant}"?`,
    });
  });

  it('looks for no more names than a person would read about', () => {
    const many = Object.fromEntries(Array.from({ length: 5000 }, (_, i) => [`limits${i}`, 1]));
    const told = faults(many);
    expect(told).toHaveLength(5000);
    expect(told.filter(({ message }) => message.includes('did you mean'))).toHaveLength(20);
  });
});
