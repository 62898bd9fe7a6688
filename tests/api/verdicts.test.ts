import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as imports from '@/app/api/v1/imports/route';
import * as daily from '@/app/api/v1/units/[tag]/daily/route';
import * as withdrawal from '@/app/api/v1/units/[tag]/verdicts/[id]/withdraw/route';
import * as verdicts from '@/app/api/v1/units/[tag]/verdicts/route';
import { dailyResultSchema } from '@/lib/contract/results';
import { verdictsSchema } from '@/lib/contract/verdicts';
import { registerFleet } from '@/lib/work/register-fleet';
import { answerOf, apiDatabase, post, postJson, readingsCsv, request } from '../support/api';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
  await registerFleet(database.context, plainFleet(['E/1']));
  await answerOf(imports.POST(post('imports?name=a.csv', readingsCsv('E/1', 24 * 10))));
});
afterAll(() => database.remove());

const at = (tag: string, id = '') => ({ params: Promise.resolve({ tag: encodeURIComponent(tag), id }) });
const get = (tag = 'E/1') => answerOf(verdicts.GET(request('units/E%2F1/verdicts'), at(tag)));
const send = (document: unknown, tag = 'E/1') =>
  answerOf(verdicts.POST(postJson('units/E%2F1/verdicts', document), at(tag)));
const withdraw = (id: string, document: unknown) =>
  answerOf(withdrawal.POST(postJson(`units/E%2F1/verdicts/${id}/withdraw`, document), at('E/1', id)));
const acceptedOn = async (day: string) => {
  const { document } = await answerOf(daily.GET(request('units/E%2F1/daily'), at('E/1')));
  return dailyResultSchema.parse(document).days.find((own) => own.day === day)!.accepted;
};
const fieldsOf = (document: Record<string, unknown>) =>
  (document.errors as { field: string }[]).map(({ field }) => field);

const DAY = '2026-01-05';
const VERDICT = {
  from: '2026-01-05T00:00:00+00:00',
  to: '2026-01-05T12:00:00+00:00',
  verdict: 'exclude',
  note: 'sensors out for calibration',
  by: 'process engineer',
};

describe('verdicts over HTTP', () => {
  it('leave readings out, are listed, and are withdrawn again', async () => {
    expect((await get()).document).toEqual({ tag: 'E/1', verdicts: [] });
    const before = await acceptedOn(DAY);
    const { status, document } = await send(VERDICT);
    expect(status).toBe(200);
    const [given] = verdictsSchema.parse(document).verdicts;
    expect(given).toMatchObject({ ...VERDICT, withdrawn: null });
    expect(await acceptedOn(DAY)).toBe(before - 12);

    const taken = await withdraw(`${given!.id}`, { note: 'other sensors', by: 'shift lead' });
    expect(taken.status).toBe(200);
    expect(verdictsSchema.parse(taken.document).verdicts).toMatchObject([
      { id: given!.id, withdrawn: { note: 'other sensors', by: 'shift lead' } },
    ]);
    expect(await acceptedOn(DAY)).toBe(before);
    expect((await get()).document).toEqual(taken.document);
  });

  it('are refused with the field and what to do', async () => {
    expect(fieldsOf((await send({ ...VERDICT, by: ' ', note: '' })).document)).toEqual(['note', 'by']);
    expect(fieldsOf((await send({ ...VERDICT, verdict: 'maybe' })).document)).toEqual(['verdict']);
    expect(fieldsOf((await send({ ...VERDICT, from: '2026-01-05T00:00:00' })).document)).toEqual(['from']);
    const reversed = await send({ ...VERDICT, to: VERDICT.from });
    expect(reversed).toMatchObject({ status: 422, type: 'application/problem+json' });
    expect(fieldsOf(reversed.document)).toEqual(['to']);
    const future = await send({ ...VERDICT, to: '2999-01-05T00:00:00Z' });
    expect(future.document.errors).toEqual([{ field: 'to', message: 'end the period by the end of today' }]);
    expect((await send(VERDICT, 'none')).status).toBe(404);
    expect((await get('none')).status).toBe(404);
    expect((await withdraw('x', { note: 'a', by: 'b' })).status).toBe(404);
    expect((await withdraw('999', { note: 'a', by: 'b' })).status).toBe(404);
    expect(fieldsOf((await withdraw('1', {})).document)).toEqual(['note']);
  });
});
