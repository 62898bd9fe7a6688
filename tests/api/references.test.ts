import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as route from '@/app/api/v1/units/[tag]/references/route';
import { cleanReferencePreviewSchema, cleanReferencesSchema } from '@/lib/contract/clean-references';
import { analyse } from '@/lib/work/analyse';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { answerOf, apiDatabase, postJson, request } from '../support/api';
import { FEW_PLATES, installed, swingingReadings, unitWithReadings } from '../support/clean-records';
import { DAY_MS, EPOCH } from '../support/forward-readings';
import type { TemporaryDatabase } from '../support/temporary-database';

const { tag } = FEW_PLATES;
const CLEANED_AT = EPOCH + 2 * DAY_MS;
const WHO = { acceptedBy: 'process engineer', reason: 'inspected clean' };

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
  const real = installed(FEW_PLATES, { hot: 1.3, wall: 1, cold: 0.8 });
  const readings = swingingReadings(10 * 24, { unitAt: () => real, foulingAt: () => 0, noise: 0.004 });
  await unitWithReadings(database.context, FEW_PLATES, readings);
  await recordCleaning(database.context, { tag, at: CLEANED_AT });
  await analyse(database.context);
});
afterAll(() => database.remove());

const at = (name: string) => ({ params: Promise.resolve({ tag: name }) });
const get = (name = tag) => answerOf(route.GET(request(`units/${name}/references`), at(name)));
const send = (document: unknown, query = '', name = tag) =>
  answerOf(route.POST(postJson(`units/${name}/references${query}`, document), at(name)));
const fieldsOf = (document: Record<string, unknown>) =>
  (document.errors as { field: string }[]).map(({ field }) => field);

describe('clean references over HTTP', () => {
  it('begin with the datasheet alone', async () => {
    const { status, document } = await get();
    expect(status).toBe(200);
    expect(cleanReferencesSchema.parse(document)).toEqual({
      tag,
      inForce: [{ from: null, unitVersion: 1, reference: null, factors: { hot: 1, wall: 1, cold: 1 } }],
      references: [],
    });
  });

  it('say what one would be, with its evidence and effect, and store nothing', async () => {
    const { status, document } = await send({ method: 'two-films' }, '?check=1');
    expect(status).toBe(200);
    const preview = cleanReferencePreviewSchema.parse(document);
    expect(preview).toMatchObject({ refusal: null, readings: 120, from: '2025-01-08T00:00:00+00:00' });
    expect(Math.abs(preview.factors!.hot - 1.3)).toBeLessThan(0.02);
    expect(preview.twoFilms!.doubts).toEqual([]);
    expect(preview.oneScale!.scatter!).toBeGreaterThan(preview.twoFilms!.scatter);
    expect(preview.effect!.before.foulingResistance).not.toBe(preview.effect!.after.foulingResistance);
    expect((await get()).document.references).toEqual([]);
  });

  it('are accepted with who and why, and change what the results are judged by', async () => {
    const { status, document } = await send({ method: 'two-films', ...WHO, after: 0 });
    expect(status).toBe(200);
    const { inForce, references } = cleanReferencesSchema.parse(document);
    expect(references).toMatchObject([
      {
        number: 1,
        method: 'two-films',
        ...WHO,
        from: '2025-01-08T00:00:00+00:00',
        evidence: { readings: 120 },
      },
    ]);
    expect(inForce.map(({ from, reference }) => [from, reference])).toEqual([
      [null, null],
      ['2025-01-08T00:00:00+00:00', 1],
    ]);
  });

  it('are refused with the field and the remedy', async () => {
    expect(fieldsOf((await send({ method: 'scale', acceptedBy: ' ', after: 1 })).document)).toEqual([
      'acceptedBy',
      'reason',
    ]);
    const automatic = { method: 'scale', ...WHO, acceptedBy: 'worked out automatically', after: 1 };
    expect(fieldsOf((await send(automatic)).document)).toEqual(['acceptedBy']);
    const reversed = { from: '2025-01-09T00:00:00Z', to: '2025-01-08T00:00:00Z' };
    expect(fieldsOf((await send({ method: 'scale', learnFrom: reversed }, '?check=1')).document)).toEqual([
      'learnFrom.to',
    ]);
    const short = { from: '2025-01-09T00:00:00Z', to: '2025-01-09T06:00:00Z' };
    const { status, document } = await send({ method: 'scale', learnFrom: short, ...WHO, after: 1 });
    expect(status).toBe(422);
    expect(document.errors).toMatchObject([
      { field: 'method', message: expect.stringContaining('24 accepted') },
    ]);
  });

  it('are not accepted over one that somebody else has accepted since, nor of an unknown unit', async () => {
    const { status, type } = await send({ method: 'scale', ...WHO, after: 0 });
    expect(status).toBe(409);
    expect(type).toBe('application/problem+json');
    expect((await get('none')).status).toBe(404);
    expect((await send({ method: 'scale' }, '?check=1', 'none')).status).toBe(404);
  });
});
