import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { CleanReferenceRecord } from '@/lib/contract/clean-references';
import { addReference, listReferences } from '@/lib/store/entities/references';
import { unitIds } from '@/lib/store/entities/units';
import { registerFleet } from '@/lib/work/register-fleet';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
let unitId: number;
beforeEach(async () => {
  database = await temporaryDatabase();
  await registerFleet(database.context, plainFleet(['E-1', 'E-2']));
  unitId = (await unitIds(database.context.store.entities)).get('E-1')!;
});
afterEach(() => database.remove());

const learned: CleanReferenceRecord = {
  number: 1,
  from: Date.parse('2026-05-03T08:00:00Z'),
  method: 'two-films',
  unitVersion: 1,
  factors: { hot: 1.25, wall: 1, cold: 0.875 },
  uncertainty: { hot: 0.01, cold: 0.02 },
  evidence: {
    from: Date.parse('2026-05-03T09:00:00Z'),
    to: Date.parse('2026-05-08T08:00:00Z'),
    readings: 120,
  },
  acceptedBy: 'process engineer',
  reason: 'acid wash',
  acceptedAt: Date.parse('2026-05-09T10:00:00Z'),
};
const stated: CleanReferenceRecord = {
  ...learned,
  number: 2,
  from: null,
  method: 'datasheet',
  uncertainty: { hot: null, cold: null },
  evidence: null,
};

describe('clean references in the database', () => {
  it('come back as they were written, in the order of their numbers, each unit its own', async () => {
    const { entities } = database.context.store;
    expect(await addReference(entities, unitId, stated)).toBe(true);
    expect(await addReference(entities, unitId, learned)).toBe(true);
    expect(await listReferences(entities, unitId)).toEqual([learned, stated]);
    expect(await listReferences(entities, unitId + 1)).toEqual([]);
  });

  it('take each number once: the second writer is told, and the first row stays', async () => {
    const { entities } = database.context.store;
    const both = await Promise.all([
      addReference(entities, unitId, learned),
      addReference(entities, unitId, { ...learned, reason: 'other' }),
    ]);
    expect(both.filter(Boolean)).toHaveLength(1);
    expect(await listReferences(entities, unitId)).toHaveLength(1);
  });
});
