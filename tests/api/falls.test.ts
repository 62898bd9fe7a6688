import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as correction from '@/app/api/v1/units/[tag]/cleanings/[id]/route';
import * as cleaningWithdrawal from '@/app/api/v1/units/[tag]/cleanings/[id]/withdraw/route';
import * as cleanings from '@/app/api/v1/units/[tag]/cleanings/route';
import * as answerWithdrawal from '@/app/api/v1/units/[tag]/falls/[id]/withdraw/route';
import * as falls from '@/app/api/v1/units/[tag]/falls/route';
import * as oneUnit from '@/app/api/v1/units/[tag]/route';
import { cleaningsSchema } from '@/lib/contract/cleaning-request';
import { fallsSchema } from '@/lib/contract/fall-answers';
import { unitResultSchema } from '@/lib/contract/results';
import { answerOf, apiDatabase, postJson, request } from '../support/api';
import { FEW_PLATES } from '../support/clean-records';
import { FALL_DAY, MIDDLE_OF_GAP, unitWithFall } from '../support/fall-record';
import type { TemporaryDatabase } from '../support/temporary-database';

const { tag } = FEW_PLATES;

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
  await unitWithFall(database.context);
});
afterAll(() => database.remove());

const at = (id = '') => ({ params: Promise.resolve({ tag, id }) });
const send = (document: unknown) => answerOf(falls.POST(postJson(`units/${tag}/falls`, document), at()));
const withdraw = (route: typeof answerWithdrawal, id: number, document: unknown) => {
  const of = route === answerWithdrawal ? 'falls' : 'cleanings';
  return answerOf(route.POST(postJson(`units/${tag}/${of}/${id}/withdraw`, document), at(`${id}`)));
};
const correct = (id: number, document: unknown) => {
  const sent = { method: 'PATCH', body: JSON.stringify(document) };
  return answerOf(correction.PATCH(request(`units/${tag}/cleanings/${id}`, sent), at(`${id}`)));
};
const unit = async () =>
  unitResultSchema.parse((await answerOf(oneUnit.GET(request(`units/${tag}`), at()))).document);
const listed = async () =>
  cleaningsSchema.parse((await answerOf(cleanings.GET(request(`units/${tag}/cleanings`), at()))).document);
const fieldsOf = (document: Record<string, unknown>) =>
  (document.errors as { field: string }[]).map(({ field }) => field);

const WHO = { by: 'process engineer', note: 'wash by contractor' };
const MISTAKEN = { by: 'shift lead', note: 'another unit' };

// One story, told in order: each step stands on the one before.
describe('falls and cleanings over HTTP', () => {
  it('offer a probable cleaning, with the unit and on their own', async () => {
    const { document } = await answerOf(falls.GET(request(`units/${tag}/falls`), at()));
    const { probableCleanings, answers } = fallsSchema.parse(document);
    expect(probableCleanings.map(({ day }) => day)).toEqual([FALL_DAY]);
    expect(answers).toEqual([]);
    expect((await unit()).probableCleanings.map(({ day }) => day)).toEqual([FALL_DAY]);
  });

  it('refuse an answer about another day, or of another kind', async () => {
    const other = await send({ day: '2025-01-20', answer: 'cleaning', ...WHO });
    expect(other).toMatchObject({ status: 422, type: 'application/problem+json' });
    expect(other.document.errors).toEqual([
      { field: 'day', message: `what waits for an answer is ${FALL_DAY}` },
    ]);
    expect(fieldsOf((await send({ day: 'Monday', answer: 'maybe' })).document)).toEqual(['day', 'answer']);
  });

  it('take the answer, and record the cleaning with it', async () => {
    const { status, document } = await send({ day: FALL_DAY, answer: 'cleaning', ...WHO });
    expect(status).toBe(200);
    const { cleanings: known } = await listed();
    expect(known).toMatchObject([{ method: 'hot caustic wash', note: WHO.note }]);
    expect(Date.parse(known[0]!.at)).toBe(MIDDLE_OF_GAP);
    expect(fallsSchema.parse(document)).toMatchObject({
      probableCleanings: [],
      answers: [{ day: FALL_DAY, answer: 'cleaning', cleaning: known[0]!.id, ...WHO }],
    });
    expect(await unit()).toMatchObject({ cycleStart: FALL_DAY, probableCleanings: [] });
  });

  it('correct the cleaning and keep what it was', async () => {
    const [known] = (await listed()).cleanings;
    const { status, document } = await correct(known!.id, {
      cost: 900,
      duration: { value: 8, unit: 'h' },
      by: 'shift lead',
      reason: 'invoice',
      revision: known!.revision,
    });
    expect(status).toBe(200);
    expect(cleaningsSchema.parse(document)).toMatchObject({
      cleanings: [{ ...known, cost: 900, duration: 8 * 3600, revision: 1 }],
      changes: [{ cleaning: known!.id, kind: 'corrected', cost: 4000, by: 'shift lead', reason: 'invoice' }],
    });
    expect(fieldsOf((await correct(known!.id, { cost: -1 })).document)).toEqual([
      'cost',
      'reason',
      'revision',
    ]);
    expect((await correct(999, { by: 'a', reason: 'b', revision: 0 })).status).toBe(404);
  });

  it('refuse a correction that does not know of the one before, or has a field that is none', async () => {
    const [known] = (await listed()).cleanings;
    const late = await correct(known!.id, { cost: 1, reason: 'seen before', revision: known!.revision - 1 });
    expect(late.status).toBe(409);
    const misspelt = { cots: 1, reason: 'typing', revision: known!.revision };
    const { status, document } = await correct(known!.id, misspelt);
    expect([status, document.errors]).toEqual([
      422,
      [{ field: 'cots', message: 'is not known here; did you mean "cost"?' }],
    ]);
    expect((await listed()).cleanings).toEqual([known]);
  });

  it('withdraw the cleaning, so that the fall waits again, then an answer', async () => {
    const [known] = (await listed()).cleanings;
    const gone = await withdraw(cleaningWithdrawal, known!.id, MISTAKEN);
    expect(cleaningsSchema.parse(gone.document).cleanings).toEqual([]);
    expect((await unit()).probableCleanings.map(({ day }) => day)).toEqual([FALL_DAY]);
    expect((await withdraw(cleaningWithdrawal, known!.id, MISTAKEN)).status).toBe(409);

    await send({ day: FALL_DAY, answer: 'not-cleaning', ...WHO });
    expect((await unit()).probableCleanings).toEqual([]);
    const { answers } = fallsSchema.parse(
      (await answerOf(falls.GET(request(`units/${tag}/falls`), at()))).document,
    );
    const back = await withdraw(answerWithdrawal, answers.at(-1)!.id, MISTAKEN);
    expect(fallsSchema.parse(back.document)).toMatchObject({
      probableCleanings: [{ day: FALL_DAY }],
      answers: [{ withdrawn: null }, { withdrawn: MISTAKEN }],
    });
  });
});
