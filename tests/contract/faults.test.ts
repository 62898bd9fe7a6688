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
});
