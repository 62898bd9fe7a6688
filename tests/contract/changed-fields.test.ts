import { describe, expect, it } from 'vitest';
import { changedFields } from '@/lib/contract/changed-fields';

describe('what of a document became another one', () => {
  it('names each field by its path, and quantities whole', () => {
    const before = { design: { hotIn: { value: 80, unit: 'Cel' } }, tag: 'E-1' };
    const after = { design: { hotIn: { value: 75, unit: 'Cel' } }, tag: 'E-1' };
    expect(changedFields(before, after)).toEqual({
      before: { 'design.hotIn': { value: 80, unit: 'Cel' } },
      after: { 'design.hotIn': { value: 75, unit: 'Cel' } },
    });
  });

  it('tells what was empty by what is in it since, and the other way round', () => {
    const filled = { outages: { Stop: { crewHours: 4 } }, limits: [{ above: 3 }] };
    const empty = { outages: {}, limits: [] };
    const fields = { 'outages.Stop.crewHours': 4, 'limits[0].above': 3 };
    expect(changedFields(empty, filled)).toEqual({ before: {}, after: fields });
    expect(changedFields(filled, empty)).toEqual({ before: fields, after: {} });
  });

  it('keeps a field that became empty of nothing else', () => {
    expect(changedFields({ properties: 1 }, { properties: {} })).toEqual({
      before: { properties: 1 },
      after: { properties: {} },
    });
  });
});
