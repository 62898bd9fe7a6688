import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { FallAnswerRecord } from '@/lib/contract/fall-answers';
import type { VerdictRecord } from '@/lib/contract/verdicts';
import { makeChange } from '@/lib/store/entities/change';
import { explainedFalls, standingAnswers } from '@/lib/store/entities/fall-answers';
import { unitIds } from '@/lib/store/entities/units';
import { addVerdict, listVerdicts, standing, withdrawVerdict } from '@/lib/store/entities/verdicts';
import { registerFleet } from '@/lib/work/register-fleet';
import { authorOf } from '../support/author-of';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
let unitId: number;
let other: number;
beforeEach(async () => {
  database = await temporaryDatabase();
  await registerFleet(database.context, plainFleet(['E-1', 'E-2']));
  const ids = await unitIds(database.context.store.entities);
  unitId = ids.get('E-1')!;
  other = ids.get('E-2')!;
});
afterEach(() => database.remove());

const stated: Omit<VerdictRecord, 'id' | 'withdrawn'> = {
  from: Date.parse('2026-05-03T08:00:00.123Z'),
  to: Date.parse('2026-05-04T08:00:00Z'),
  verdict: 'exclude',
  note: 'Fühler kalibriert',
  by: 'process engineer',
  givenAt: Date.parse('2026-05-09T10:00:00Z'),
};
const at = Date.parse('2026-06-01T10:00:00Z');

const add = (id: number, verdict: typeof stated) =>
  makeChange(database.context.store.entities, authorOf({ by: verdict.by, at: verdict.givenAt }), (making) =>
    addVerdict(making, { unitId: id, tag: 'E' }, verdict),
  );

const withdraw = (
  of: { unitId: number; id: number },
  { note, by, at }: { note: string; by: string; at: number },
) =>
  makeChange(database.context.store.entities, authorOf({ by, at }), (making) =>
    withdrawVerdict(making, { ...of, tag: 'E' }, note),
  );

describe('verdicts in the database', () => {
  it('come back as they were written, oldest first, each unit its own', async () => {
    const { entities } = database.context.store;
    const first = await add(unitId, stated);
    const second = await add(unitId, { ...stated, verdict: 'include' });
    await add(other, stated);
    expect(await listVerdicts(entities, unitId)).toEqual([
      { ...stated, id: first, withdrawn: null },
      { ...stated, id: second, verdict: 'include', withdrawn: null },
    ]);
  });

  it('withdrawn stay, with who and why, and no longer hold', async () => {
    const { entities } = database.context.store;
    const id = await add(unitId, stated);
    const withdrawal = { note: 'mistaken', by: 'shift lead', at };
    expect(await withdraw({ unitId: other, id }, withdrawal)).toBe(false);
    expect(standing(await listVerdicts(entities, unitId))).toEqual([
      { from: stated.from, to: stated.to, verdict: 'exclude' },
    ]);
    expect(await withdraw({ unitId, id }, withdrawal)).toBe(true);
    expect(await withdraw({ unitId, id }, { ...withdrawal, by: 'another' })).toBe(false);
    const verdicts = await listVerdicts(entities, unitId);
    expect(verdicts).toEqual([{ ...stated, id, withdrawn: withdrawal }]);
    expect(standing(verdicts)).toEqual([]);
  });

  it('are withdrawn by one of two who try at once', async () => {
    const id = await add(unitId, stated);
    const both = await Promise.all(
      ['shift lead', 'process engineer'].map((by) => withdraw({ unitId, id }, { note: 'mistaken', by, at })),
    );
    expect(both.filter((isDone) => isDone)).toHaveLength(1);
  });
});

describe('answers to falls', () => {
  const answer = (changes: Partial<FallAnswerRecord>): FallAnswerRecord => ({
    id: 1,
    day: 20_000,
    answer: 'not-cleaning',
    note: null,
    by: 'process engineer',
    givenAt: at,
    cleaning: null,
    withdrawn: null,
    ...changes,
  });
  const withdrawn = { at, by: 'shift lead', note: 'mistaken' };

  it('hold by day, the last one that was not withdrawn', () => {
    const answers = [
      answer({ id: 1 }),
      answer({ id: 2, answer: 'cleaning', cleaning: 7 }),
      answer({ id: 3, day: 20_100 }),
      answer({ id: 4, withdrawn }),
      answer({ id: 5, day: 20_200, withdrawn }),
    ];
    expect(standingAnswers(answers).map(({ id }) => id)).toEqual([2, 3]);
    expect(explainedFalls(answers)).toEqual([20_100]);
  });
});
